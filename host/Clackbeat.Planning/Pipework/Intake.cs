using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Planning.Pipework;

/// <summary>Header tank and strainer before the drive pipe.</summary>
/// <param name="SubmergenceM">Least depth of water over the pipe's mouth [m].</param>
/// <param name="TankM3">Least volume of the header tank [m³].</param>
/// <param name="OpenAreaM2">Open area of the strainer [m²].</param>
/// <param name="HoleM">Widest hole of the strainer [m].</param>
public sealed record Intake(double SubmergenceM, double TankM3, double OpenAreaM2, double HoleM)
{
    // Half a minute of drive flow lets air rise and sand settle, and the level hardly moves within a beat (common practice).
    private const double TankS = 30;

    // A tenth of a metre a second through the open holes doesn't draw leaves in, and half of them may be blocked (common practice).
    private const double ThroughMPerS = 0.1;
    private const double Blocked = 0.5;

    // Smaller than what a waste valve passes without sticking (common practice).
    private const double WidestHoleM = 0.006;

    /// <summary>Sizes the intake of one ram.</summary>
    /// <param name="flowM3PerS">Mean drive flow [m³/s].</param>
    /// <param name="fastestMPerS">Velocity in the drive pipe as the waste valve shuts [m/s].</param>
    /// <param name="boreM">Bore of the drive pipe [m].</param>
    public static Intake For(double flowM3PerS, double fastestMPerS, double boreM)
    {
        // ANSI/HI 9.8: no air-drawing vortex at S/D = 1 + 2.3 Fr (from memory), by the highest velocity of the beat.
        double froude = fastestMPerS / Math.Sqrt(Constants.GravityMPerS2 * boreM);
        return new Intake(boreM * (1 + 2.3 * froude), TankS * flowM3PerS, flowM3PerS / ThroughMPerS / Blocked, WidestHoleM);
    }
}
