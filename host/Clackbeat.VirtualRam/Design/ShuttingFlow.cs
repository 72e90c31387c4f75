using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Design;

/// <summary>
/// The largest steady flow that a waste valve lets pass before it shuts. At each lift its weight and spring hold a head
/// h = F(x)/(ρ g A s(x)), and the gap passes C(x) √(2 g h) under it. A plug on its stop lets go at the flow of its stop; one that
/// floats moves along that curve and snaps shut at its top, where more flow finds no lift any more.
/// </summary>
/// <param name="LiftM">Lift at which it lets go [m].</param>
/// <param name="HeadM">Head across it then [m].</param>
/// <param name="FlowM3PerS">The flow [m³/s].</param>
internal readonly record struct ShuttingFlow(double LiftM, double HeadM, double FlowM3PerS)
{
    private const int Points = 400;

    internal static ShuttingFlow Of(ValveParameters valve, WaterParameters water)
    {
        double weight = water.DensityKgPerM3 * Constants.GravityMPerS2;
        return Enumerable.Range(1, Points)
            .Select(i => valve.RestLiftM * i / Points)
            .Select(lift => (Lift: lift, Head: Math.Max(0, valve.OpeningForceN(lift)) / (weight * valve.SeatAreaM2 * valve.ForceShare(lift))))
            .Select(p => new ShuttingFlow(p.Lift, p.Head, valve.OpenAreaM2(p.Lift) * Math.Sqrt(2 * Constants.GravityMPerS2 * p.Head)))
            .MaxBy(p => p.FlowM3PerS);
    }
}
