using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Design;

/// <summary>
/// The cycle of a ram with a rigid column, for sizing only: the column speeds up as V_t tanh(g H t/(L V_t)) until the plug
/// lifts and is then slowed by the delivery head.
/// </summary>
internal sealed record RigidCycle
{
    /// <summary>Time that closing, recoil and opening add [s]; from memory of published traces, for sizing only.</summary>
    private const double ValveTimeS = 0.08;

    internal required double LiftOffVelocityMPerS { get; init; }

    internal required double PeriodS { get; init; }

    /// <summary>Time the delivery head takes to stop the column [s].</summary>
    internal required double DeliveryS { get; init; }

    internal required double DeliveredM3 { get; init; }

    internal double DeliveryM3PerS => DeliveredM3 / PeriodS;

    /// <summary>Head per square of velocity that pipe, entrance and velocity head take [s²/m].</summary>
    internal static double PipeLoss(RamParameters ram, double velocityMPerS) =>
        PipeLoss(ram.Water, ram.Supply.LossCoefficient, ram.DrivePipe, velocityMPerS);

    internal static double PipeLoss(WaterParameters water, double lossCoefficient, PipeParameters pipe, double velocityMPerS)
    {
        var viscosity = water.KinematicViscosityM2PerS;
        var friction = viscosity > 0
            ? Friction.DarcyFactor(
                Friction.Reynolds(velocityMPerS, pipe.BoreM, viscosity), pipe.RoughnessM / pipe.BoreM)
            : 0;
        return (friction * pipe.LengthM / pipe.BoreM + 1 + lossCoefficient) / (2 * Constants.GravityMPerS2);
    }

    /// <summary>The cycle a given ram should run.</summary>
    internal static RigidCycle Of(RamParameters ram)
    {
        var valve = ram.WasteValve;
        var weight = ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        var atStop = valve.PreloadN - valve.SpringNPerM * valve.TravelM;
        var liftHead = atStop / (weight * valve.SeatAreaM2 * valve.ForceShareAtStop);
        var gap = valve.GapWidthM * valve.TravelM;
        var open = gap * valve.PassageAreaM2 / Math.Sqrt(gap * gap + valve.PassageAreaM2 * valve.PassageAreaM2);
        var ratio = ram.DrivePipe.AreaM2 / open;
        var valveLoss = ratio * ratio / (2 * Constants.GravityMPerS2);
        var velocity = Math.Sqrt(liftHead / valveLoss);
        var terminal = Math.Sqrt(ram.Supply.HeadM / (valveLoss + PipeLoss(ram, velocity)));
        var share = Math.Min(velocity / terminal, 0.99);
        return From(ram.DrivePipe, ram.Supply.HeadM, ram.DeliveryMain.OutletHeadM, share * terminal, share);
    }

    /// <summary>The cycle for a lift-off velocity that is a given share of the terminal one.</summary>
    internal static RigidCycle From(PipeParameters pipe, double supplyM, double deliveryM, double velocity, double share)
    {
        const double g = Constants.GravityMPerS2;
        var speedUp = pipe.LengthM * velocity / share / (g * supplyM) * Math.Atanh(share);
        var deliver = pipe.LengthM * velocity / (g * (deliveryM - supplyM));
        return new RigidCycle
        {
            LiftOffVelocityMPerS = velocity,
            PeriodS = speedUp + deliver + ValveTimeS,
            DeliveryS = deliver,
            DeliveredM3 = 0.5 * pipe.AreaM2 * velocity * deliver,
        };
    }
}
