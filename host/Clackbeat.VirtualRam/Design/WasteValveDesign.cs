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
        double liftHead = aim.ValveLoss * Earliness * Earliness * aim.VelocityMPerS * aim.VelocityMPerS;
        // Several that open and shut together are one with the sum of their areas, edges and masses.
        double seatDiameter = given.SeatDiameterM ?? (pipe.BoreM / Math.Sqrt(given.Count));
        ValveParameters plug = Plug(given, seatDiameter, deliveryM, water, pipe, aim, liftHead, lively);
        return given.Kind switch
        {
            WasteValveKind.Flap => FloatingValveDesign.Flap(plug, seatDiameter, water, liftHead),
            WasteValveKind.SpringPlug when given.SpringForceN is null => FloatingValveDesign.Spring(plug, seatDiameter, water, liftHead),
            _ => plug,
        };
    }

    private static ValveParameters Plug(
        WasteValve given, double seatDiameter, double deliveryM, WaterParameters water, PipeParameters pipe, Aim aim, double liftHead, bool lively)
    {
        const double g = Constants.GravityMPerS2;
        double seatArea = given.Count * Math.PI / 4 * seatDiameter * seatDiameter;
        double open = pipe.AreaM2 / Math.Sqrt(2 * g * aim.ValveLoss);
        double gapWidth = given.Count * GapCoefficient * Math.PI * seatDiameter;
        // The gap is made a quarter wider than the whole needs; the passages take the rest of the loss.
        double passage = open / Math.Sqrt(1 - 1 / (1.25 * 1.25));
        double travel = given.StrokeM ?? 1.25 * open / gapWidth;
        double force = water.DensityKgPerM3 * g * seatArea * liftHead * ForceShareAtStop;
        double plug = given.Count * given.MassKg ?? Math.Min(force / (g * SubmergedShare), 700 * seatArea);
        double weight = plug * g * SubmergedShare;
        // What the weight does not give comes from a spring that loses a quarter of its force along the travel.
        double spring = given.SpringForceN ?? (given.MassKg is null ? Math.Max(0, force - weight) : 0);
        double rate = given.SpringRateNPerM ?? 0.25 * spring / travel;
        double mass = plug + given.Count * 0.2 * water.DensityKgPerM3 * Math.Pow(seatDiameter, 3);
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
