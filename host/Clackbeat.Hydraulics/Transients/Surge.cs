using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Hydraulics.Transients;

/// <summary>Pressure rise when a moving water column is stopped, and the times a pipe keeps.</summary>
public static class Surge
{
    /// <summary>Joukowsky: Δp = ρ a ΔV [Pa] (N. Joukowsky 1898; Wylie and Streeter 1993, Eq. 1-3). Wholly elastic, no friction.</summary>
    /// <param name="densityKgPerM3">Density [kg/m³].</param>
    /// <param name="waveSpeedMPerS">Wave speed a [m/s].</param>
    /// <param name="velocityChangeMPerS">Velocity taken away [m/s].</param>
    public static double JoukowskyPa(double densityKgPerM3, double waveSpeedMPerS, double velocityChangeMPerS) =>
        densityKgPerM3 * waveSpeedMPerS * velocityChangeMPerS;

    /// <summary>The same as head: ΔH = a ΔV / g [m].</summary>
    /// <param name="waveSpeedMPerS">Wave speed [m/s].</param>
    /// <param name="velocityChangeMPerS">Velocity taken away [m/s].</param>
    public static double JoukowskyHeadM(double waveSpeedMPerS, double velocityChangeMPerS) =>
        waveSpeedMPerS * velocityChangeMPerS / Constants.GravityMPerS2;

    /// <summary>
    /// Rise for a closure that takes its time [Pa]: Joukowsky up to one pipe period, Michaud's 2 ρ L ΔV / t_c beyond it
    /// (J. Michaud 1878); the two meet at t_c = 2L/a.
    /// </summary>
    /// <param name="densityKgPerM3">Density [kg/m³].</param>
    /// <param name="waveSpeedMPerS">Wave speed [m/s].</param>
    /// <param name="lengthM">Pipe length L [m].</param>
    /// <param name="velocityChangeMPerS">Velocity taken away [m/s].</param>
    /// <param name="closureTimeS">Closure time t_c [s], 0 or more.</param>
    public static double ClosurePa(
        double densityKgPerM3, double waveSpeedMPerS, double lengthM, double velocityChangeMPerS, double closureTimeS) =>
        closureTimeS <= PipePeriodS(lengthM, waveSpeedMPerS)
            ? JoukowskyPa(densityKgPerM3, waveSpeedMPerS, velocityChangeMPerS)
            : 2 * densityKgPerM3 * lengthM * velocityChangeMPerS / closureTimeS;

    /// <summary>Time for a wave to run up the pipe and back, 2L/a [s].</summary>
    /// <param name="lengthM">Pipe length [m].</param>
    /// <param name="waveSpeedMPerS">Wave speed [m/s].</param>
    public static double PipePeriodS(double lengthM, double waveSpeedMPerS) => 2 * lengthM / waveSpeedMPerS;

    /// <summary>Period at which a pipe with one end shut and one open rings, 4L/a [s].</summary>
    /// <param name="lengthM">Pipe length [m].</param>
    /// <param name="waveSpeedMPerS">Wave speed [m/s].</param>
    public static double RingPeriodS(double lengthM, double waveSpeedMPerS) => 4 * lengthM / waveSpeedMPerS;

    /// <summary>
    /// Highest pressure the closure alone can make in one straight pipe that is held fast [Pa gauge]: static plus ρ a V. The peak of
    /// a ram usually lies below it, because the delivery valve opens. What can exceed it: a column that rejoins after a cavity, a
    /// pipe that is loose and moves with the knock, a joint of unlike pipes that throws part of the wave back, and a wave of the
    /// beat before that is still in the pipe.
    /// </summary>
    /// <param name="staticPa">Body pressure at rest under the supply head [Pa gauge].</param>
    /// <param name="densityKgPerM3">Density [kg/m³].</param>
    /// <param name="waveSpeedMPerS">Wave speed [m/s].</param>
    /// <param name="closingVelocityMPerS">Velocity in the drive pipe as the waste valve shuts [m/s].</param>
    public static double CeilingPa(
        double staticPa, double densityKgPerM3, double waveSpeedMPerS, double closingVelocityMPerS) =>
        staticPa + JoukowskyPa(densityKgPerM3, waveSpeedMPerS, closingVelocityMPerS);
}
