using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Hydraulics.Transients;

/// <summary>
/// What small bubbles do to the wave speed. Water, air and wall give way side by side, so their compliances add
/// (A. B. Wood, A Textbook of Sound, 1930; with the wall: Wylie and Streeter 1993, §1.5):
/// 1/(ρ_m a²) = (1 − φ)/K + φ/(n p) + c1 D/(E e), ρ_m = (1 − φ) ρ. Holds for bubbles spread evenly and small against
/// the pipe; a pocket at a high point behaves differently.
/// </summary>
public static class FreeAir
{
    /// <summary>Wave speed with bubbles [m/s].</summary>
    /// <param name="airFraction">Air by volume at line pressure, φ, 0 to below 0.5.</param>
    /// <param name="airFreeWaveSpeedMPerS">Wave speed of the same pipe without air [m/s].</param>
    /// <param name="water">The water.</param>
    /// <param name="linePressureAbsPa">Line pressure [Pa absolute].</param>
    /// <param name="polytropicExponent">n; 1 for bubbles small enough to keep the water's temperature.</param>
    public static double WaveSpeedMPerS(
        double airFraction,
        double airFreeWaveSpeedMPerS,
        WaterProperties water,
        double linePressureAbsPa,
        double polytropicExponent = 1) =>
        Wood(
            airFraction,
            airFreeWaveSpeedMPerS,
            water.BulkModulusPa,
            water.DensityKgPerM3,
            linePressureAbsPa * polytropicExponent);

    /// <summary>
    /// Air fraction that explains a wave speed, the other way round; null when the measured speed is not below the
    /// air-free one, or is lower than any bubbly mixture can be (then the air sits elsewhere, or in the sensor's tap).
    /// </summary>
    /// <param name="measuredWaveSpeedMPerS">Measured wave speed [m/s].</param>
    /// <param name="airFreeWaveSpeedMPerS">Wave speed of the same pipe without air [m/s].</param>
    /// <param name="water">The water.</param>
    /// <param name="linePressureAbsPa">Line pressure [Pa absolute].</param>
    /// <param name="polytropicExponent">n, as above.</param>
    public static double? ImpliedFraction(
        double measuredWaveSpeedMPerS,
        double airFreeWaveSpeedMPerS,
        WaterProperties water,
        double linePressureAbsPa,
        double polytropicExponent = 1)
    {
        if (!(measuredWaveSpeedMPerS > 0) || measuredWaveSpeedMPerS >= airFreeWaveSpeedMPerS)
        {
            return null;
        }

        // (1 − φ)(s + g φ) = 1/(ρ a²), with s the air-free compliance and g what each part of air adds.
        double density = water.DensityKgPerM3;
        double stiff = 1 / (density * airFreeWaveSpeedMPerS * airFreeWaveSpeedMPerS);
        double gain = 1 / (linePressureAbsPa * polytropicExponent) - 1 / water.BulkModulusPa;
        double target = 1 / (density * measuredWaveSpeedMPerS * measuredWaveSpeedMPerS);
        double b = gain - stiff;
        double root = b * b - 4 * gain * (target - stiff);
        return root < 0 ? null : 2 * (target - stiff) / (b + Math.Sqrt(root));
    }

    private static double Wood(double airFraction, double airFree, double bulkPa, double density, double airStiffnessPa)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(airFraction);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(airFraction, 0.5);
        double compliance = 1 / (density * airFree * airFree) + airFraction * (1 / airStiffnessPa - 1 / bulkPa);
        return 1 / Math.Sqrt((1 - airFraction) * density * compliance);
    }
}
