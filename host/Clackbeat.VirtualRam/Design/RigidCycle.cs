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
        PipeLoss(ram.Water, ram.Supply.LossCoefficient, ram.Column, velocityMPerS);

    internal static double PipeLoss(WaterParameters water, double lossCoefficient, PipeParameters pipe, double velocityMPerS)
    {
        double viscosity = water.KinematicViscosityM2PerS;
        double friction = viscosity > 0
            ? Friction.DarcyFactor(
                Friction.Reynolds(velocityMPerS, pipe.BoreM, viscosity), pipe.RoughnessM / pipe.BoreM)
            : 0;
        return (friction * pipe.LengthM / pipe.BoreM + 1 + lossCoefficient) / (2 * Constants.GravityMPerS2);
    }

    /// <summary>The cycle a given ram should run.</summary>
    internal static RigidCycle Of(RamParameters ram)
    {
        ValveParameters valve = ram.WasteValve;
        var shuts = ShuttingFlow.Of(valve, ram.Water);
        double ratio = ram.DrivePipe.AreaM2 / valve.OpenAreaM2(shuts.LiftM);
        double valveLoss = ratio * ratio / (2 * Constants.GravityMPerS2);
        double velocity = shuts.FlowM3PerS / ram.DrivePipe.AreaM2;
        double terminal = Math.Sqrt(ram.Supply.HeadM / (valveLoss + PipeLoss(ram, velocity)));
        double share = Math.Min(velocity / terminal, 0.99);
        return From(ram.Column, ram.Supply.HeadM, ram.DeliveryMain.OutletHeadM, share * terminal, share);
    }

    /// <summary>The cycle for a lift-off velocity that is a given share of the terminal one.</summary>
    internal static RigidCycle From(PipeParameters pipe, double supplyM, double deliveryM, double velocity, double share)
    {
        const double g = Constants.GravityMPerS2;
        double speedUp = pipe.LengthM * velocity / share / (g * supplyM) * Math.Atanh(share);
        double deliver = pipe.LengthM * velocity / (g * (deliveryM - supplyM));
        return new RigidCycle
        {
            LiftOffVelocityMPerS = velocity,
            PeriodS = speedUp + deliver + ValveTimeS,
            DeliveryS = deliver,
            DeliveredM3 = 0.5 * pipe.AreaM2 * velocity * deliver,
        };
    }
}
