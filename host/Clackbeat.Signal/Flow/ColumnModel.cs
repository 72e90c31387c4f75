using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Signal.Flow;

/// <summary>The drive pipe and what is assumed or found about it. Heads in metres above the datum, velocities in the drive pipe.</summary>
/// <param name="LengthM">Length [m].</param>
/// <param name="WaveSpeedMPerS">Wave speed [m/s].</param>
/// <param name="SupplyHeadM">Supply head [m].</param>
/// <param name="BiasM">What the sensor reads too high [m of water].</param>
/// <param name="EntranceLoss">Entrance loss and velocity head over the square of the velocity [s²/m].</param>
/// <param name="PipeLoss">Pipe friction head over the square of the velocity [s²/m].</param>
internal readonly record struct ColumnModel(
    double LengthM, double WaveSpeedMPerS, double SupplyHeadM, double BiasM, double EntranceLoss, double PipeLoss)
{
    /// <summary>2L/a [s].</summary>
    public double PeriodS => 2 * LengthM / WaveSpeedMPerS;

    /// <summary>Sections and creep; null for one pipe with a wall that doesn't creep.</summary>
    public PipeShape? Shape { get; init; }

    /// <summary>Velocity in the drive pipe that feeds the snifter at one metre of head in the body [m/s]; it goes with the root of the head.</summary>
    public double SnifterVelocityMPerS { get; init; }

    /// <summary>Head that stops one metre a second at the ram, a/g [s].</summary>
    public double Impedance => Shape?.ImpedanceAtRam(WaveSpeedMPerS) ?? (WaveSpeedMPerS / Constants.GravityMPerS2);

    /// <summary>Acceleration a metre of head gives the column [1/s²].</summary>
    public double Drive => Constants.GravityMPerS2 / LengthM;

    /// <summary>All losses over the square of the velocity [s²/m].</summary>
    public double Loss => EntranceLoss + PipeLoss;

    /// <summary>The same column with all losses multiplied.</summary>
    public ColumnModel WithLoss(double factor) => this with { EntranceLoss = EntranceLoss * factor, PipeLoss = PipeLoss * factor };
}
