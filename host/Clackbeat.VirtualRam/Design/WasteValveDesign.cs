using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Design;

/// <summary>Sizes a waste valve: gap and passages for the flow that is wanted, weight for the velocity at which it lifts.</summary>
internal static class WasteValveDesign
{
    /// <summary>Discharge coefficient of the gap under a disc; about 0.6 for sharp edges (common practice).</summary>
    private const double GapCoefficient = 0.62;

    /// <summary>Weight of a steel plug under water over its weight in air.</summary>
    private const double SubmergedShare = 1 - 1 / 7.85;

    private const double ForceShareAtStop = 0.9;

    /// <summary>The flow goes on rising while the plug begins to move, so it must start below the velocity that is aimed at.</summary>
    private const double Earliness = 0.95;

    internal static ValveParameters For(
        WasteValve given, double deliveryM, WaterParameters water, PipeParameters pipe, Aim aim, bool lively)
    {
        const double g = Constants.GravityMPerS2;
        var seatDiameter = given.SeatDiameterM ?? pipe.BoreM;
        var seatArea = Math.PI / 4 * seatDiameter * seatDiameter;
        var open = pipe.AreaM2 / Math.Sqrt(2 * g * aim.ValveLoss);
        var gapWidth = GapCoefficient * Math.PI * seatDiameter;
        // The gap is made a quarter wider than the whole needs; the passages take the rest of the loss.
        var passage = open / Math.Sqrt(1 - 1 / (1.25 * 1.25));
        var travel = given.StrokeM ?? 1.25 * open / gapWidth;
        var liftHead = aim.ValveLoss * Earliness * Earliness * aim.VelocityMPerS * aim.VelocityMPerS;
        var force = water.DensityKgPerM3 * g * seatArea * liftHead * ForceShareAtStop;
        var plug = given.MassKg ?? Math.Min(force / (g * SubmergedShare), 700 * seatArea);
        var weight = plug * g * SubmergedShare;
        // What the weight does not give comes from a spring that loses a quarter of its force along the travel.
        var spring = given.SpringForceN ?? (given.MassKg is null ? Math.Max(0, force - weight) : 0);
        var rate = given.SpringRateNPerM ?? 0.25 * spring / travel;
        var mass = plug + 0.2 * water.DensityKgPerM3 * Math.Pow(seatDiameter, 3);
        return new ValveParameters
        {
            SeatAreaM2 = seatArea,
            TravelM = travel,
            MassKg = mass,
            PreloadN = weight + spring + rate * travel,
            SpringNPerM = rate,
            DampingNSPerM = 8 * mass,
            ForceShareAtStop = ForceShareAtStop,
            GapWidthM = gapWidth,
            PassageAreaM2 = passage,
            Rebound = lively ? 0.3 : 0.05,
            SeatStiffnessNPerM = SeatFacing.StiffnessNPerM(deliveryM, water, pipe, seatArea),
        };
    }
}
