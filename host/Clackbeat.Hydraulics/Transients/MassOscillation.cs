using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Hydraulics.Transients;

/// <summary>Slow swing of the level in a stand pipe that a feed pipe fills: a rigid column against a free surface.</summary>
public static class MassOscillation
{
    /// <summary>Period without friction, 2π √(L A_s/(g A)) [s] (E. B. Wylie and V. L. Streeter, 1993, ch. 11).</summary>
    /// <param name="feedLengthM">Length L of the feed pipe [m].</param>
    /// <param name="feedAreaM2">Area A of the feed pipe [m²].</param>
    /// <param name="standAreaM2">Area A_s of the stand pipe's surface [m²].</param>
    public static double PeriodS(double feedLengthM, double feedAreaM2, double standAreaM2) =>
        2 * Math.PI * Math.Sqrt(feedLengthM * standAreaM2 / (Constants.GravityMPerS2 * feedAreaM2));

    /// <summary>Height of the first swing after a steady flow stops, without friction, Q √(L/(g A A_s)) [m].</summary>
    /// <param name="flowM3PerS">The flow Q [m³/s].</param>
    /// <param name="feedLengthM">L [m].</param>
    /// <param name="feedAreaM2">A [m²].</param>
    /// <param name="standAreaM2">A_s [m²].</param>
    public static double AmplitudeM(double flowM3PerS, double feedLengthM, double feedAreaM2, double standAreaM2) =>
        flowM3PerS * Math.Sqrt(feedLengthM / (Constants.GravityMPerS2 * feedAreaM2 * standAreaM2));
}
