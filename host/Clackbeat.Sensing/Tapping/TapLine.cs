using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Sensing.Tapping;

/// <summary>
/// The line of water between the ram's body and the sensor's face, which rings on its own. Stiff walls are taken; a hose
/// gives and rings lower still.
/// </summary>
/// <param name="LengthM">Length [m].</param>
/// <param name="BoreM">Bore [m].</param>
public readonly record struct TapLine(double LengthM, double BoreM)
{
    /// <summary>Polytropic exponent of a small bubble in fast swings: adiabatic air. Slow swings are nearer to 1.</summary>
    public const double BubbleExponent = 1.4;

    // A fifth of the resonance is read within some 5 %: 1/cos 18° in a line full of water, and
    // 1/(1 − 1/25) where a bubble is the spring.
    private const double ClearFactor = 5;

    private double AreaM2 => Math.PI / 4 * BoreM * BoreM;

    /// <summary>Quarter-wave resonance of a line full of water, closed by the sensor, c/(4L) [Hz].</summary>
    public double QuarterWaveHz(WaterProperties water) => water.SoundSpeedMPerS / (4 * LengthM);

    /// <summary>
    /// Resonance of the line's water on the water in a chamber before the sensor (Helmholtz), c/(2π) √(A/(L V)) [Hz]. For a
    /// chamber that is large against the line; a small one leaves the quarter wave.
    /// </summary>
    /// <param name="water">The water.</param>
    /// <param name="chamberM3">Volume of the chamber [m³].</param>
    public double HelmholtzHz(WaterProperties water, double chamberM3) =>
        water.SoundSpeedMPerS / (2 * Math.PI) * Math.Sqrt(AreaM2 / (LengthM * chamberM3));

    /// <summary>
    /// Resonance of the line's water on a bubble at its end, 1/(2π) √(n p A/(ρ L V)) [Hz]: mass ρ L/A against the stiffness
    /// n p/V. A liquid column on a trapped bubble: Iberall, NBS Research Paper 2115 (1950).
    /// </summary>
    /// <param name="water">The water.</param>
    /// <param name="bubbleM3">Volume of the bubble at that pressure [m³].</param>
    /// <param name="absolutePa">Pressure [Pa absolute].</param>
    public double BubbleHz(WaterProperties water, double bubbleM3, double absolutePa) =>
        Math.Sqrt(BubbleExponent * absolutePa * AreaM2 / (water.DensityKgPerM3 * LengthM * bubbleM3)) / (2 * Math.PI);

    /// <summary>Bubble that brings the line's resonance down to a frequency [m³].</summary>
    public double BubbleForM3(WaterProperties water, double frequencyHz, double absolutePa) =>
        BubbleExponent * absolutePa * AreaM2
            / (water.DensityKgPerM3 * LengthM * Math.Pow(2 * Math.PI * frequencyHz, 2));

    /// <summary>
    /// Amplification of an undamped line full of water below its quarter-wave resonance, 1/cos(π/2 · f/fn): a standing wave with its greatest
    /// pressure at the closed end (E. B. Wylie and V. L. Streeter, Fluid Transients in Systems, 1993, on resonance of a dead-end pipe).
    /// </summary>
    public static double QuarterWaveAmplification(double frequencyHz, double naturalHz) =>
        1 / Math.Abs(Math.Cos(Math.PI / 2 * frequencyHz / naturalHz));

    /// <summary>Highest frequency that a resonance leaves within some 5 % [Hz].</summary>
    public static double ClearUpToHz(double naturalHz) => naturalHz / ClearFactor;
}
