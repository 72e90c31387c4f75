using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Design;

/// <summary>
/// Waste valves that float: the plug on a soft spring and the flap of a swing check. Made so that they snap shut at the flow that is
/// aimed at; before that the flow has moved them already. Proportions are common practice, from memory.
/// </summary>
internal static class FloatingValveDesign
{
    /// <summary>A spring's plug is lifted by it as far as a quarter of the seat's diameter, where gap and seat are as wide.</summary>
    private const double SpringLiftShare = 0.25;

    /// <summary>The stop lies half as far again, where the plug comes only by its swing.</summary>
    private const double StopBeyondRest = 1.5;

    /// <summary>The way through is as wide as several gaps, so the gap alone throttles, as in a full-bore check valve.</summary>
    private const double PassageOverGap = 4;

    /// <summary>From the hinge to the flap's middle, over the seat's diameter.</summary>
    private const double ArmShare = 0.6;

    /// <summary>How far a flap hangs open [rad].</summary>
    private const double FlapRestRad = 0.6;

    private const double FlapFarthestRad = 1.2;

    /// <summary>Turns a plug designed for the same aim into a valve on a soft spring.</summary>
    internal static ValveParameters Spring(ValveParameters plug, double seatDiameterM, WaterParameters water, double shutsAtHeadM)
    {
        double rest = SpringLiftShare * seatDiameterM;
        ValveParameters shape = plug with { TravelM = StopBeyondRest * rest, PreloadN = rest, SpringNPerM = 1, ForceShareAtStop = 0.9 };
        return Sized(shape, plug, water, shutsAtHeadM, force => shape with { PreloadN = force * rest, SpringNPerM = force });
    }

    /// <summary>Turns it into a flap.</summary>
    internal static ValveParameters Flap(ValveParameters plug, double seatDiameterM, WaterParameters water, double shutsAtHeadM)
    {
        double arm = ArmShare * seatDiameterM;
        ValveParameters shape = plug with
        {
            Flap = new FlapParameters { ArmM = arm, RestRad = FlapRestRad },
            TravelM = arm * FlapFarthestRad,
            PreloadN = 1,
            SpringNPerM = 0,
            ForceShareAtStop = 0.9,
        };
        return Sized(shape, plug, water, shutsAtHeadM, force => shape with { PreloadN = force });
    }

    // Lift at the snap doesn't depend on how strong spring or weight are, nor on a common factor of gap and passage.
    private static ValveParameters Sized(
        ValveParameters shape, ValveParameters plug, WaterParameters water, double shutsAtHeadM, Func<double, ValveParameters> stronger)
    {
        shape = shape with { PassageAreaM2 = 1e3 };
        shape = shape with { PassageAreaM2 = PassageOverGap * shape.OpenAreaM2(shape.RestLiftM) };
        var snap = ShuttingFlow.Of(shape, water);
        double wider = plug.OpenAreaM2(plug.TravelM) / shape.OpenAreaM2(snap.LiftM);
        ValveParameters strong = stronger(shutsAtHeadM / snap.HeadM);
        // A flap or plug weighs at least what holds it open; the rest is the water that moves along.
        double weightKg = strong.Flap is null ? 0 : strong.PreloadN / Math.Sin(FlapRestRad) / Constants.GravityMPerS2;
        return strong with
        {
            GapWidthM = wider * shape.GapWidthM,
            PassageAreaM2 = wider * shape.PassageAreaM2,
            MassKg = Math.Max(plug.MassKg, weightKg + plug.MassKg / 2),
        };
    }
}
