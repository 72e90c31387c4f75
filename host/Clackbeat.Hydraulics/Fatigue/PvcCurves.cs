using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Hydraulics.Fatigue;

/// <summary>
/// Cycles to failure of PVC-U pressure pipe at about 23 °C, from hoop stress σ = p (DR − 1)/2. As printed in A. P. Moser and
/// S. Folkman, Buried Pipe Design, 3rd ed., pp. 211-221.
/// </summary>
/// <remarks>
/// The pipes tested were plain lengths without threads or glued fittings; the longest test shown ran 11 million cycles, which
/// a ram at 60 beats a minute makes in four months.
/// </remarks>
public static class PvcCurves
{
    /// <summary>Most cycles that any test behind these curves was run to.</summary>
    public const double TestedCycles = 11e6;

    /// <summary>Smallest amplitude among the tests of Utah State University [Pa of hoop stress], 213 psi.</summary>
    public static readonly double SmallestTestedAmplitudePa = 213 * Constants.PsiPa;

    /// <summary>Highest mean that <see cref="UtahState"/> was fitted for [Pa of hoop stress], 5600 psi.</summary>
    public static readonly double HighestMeanPa = 5600 * Constants.PsiPa;

    private const double FolkmanSlope = 4.196;

    /// <summary>Hoop stress in a wall under pressure, p (DR − 1)/2 [Pa].</summary>
    /// <param name="pressurePa">Pressure, or a range of it [Pa].</param>
    /// <param name="dimensionRatio">Outside diameter over least wall, above 2.</param>
    public static double HoopStressPa(double pressurePa, double dimensionRatio) => pressurePa * (dimensionRatio - 1) / 2;

    /// <summary>
    /// Vinson: N = 5.05e21 σ_peak^−4.906, σ in psi (Eq. 4.17). Counts the peak alone; his pipes were unloaded to 400-500 psi of
    /// hoop stress in each cycle, so it belongs to loads that fall near zero, as a ram's do.
    /// </summary>
    /// <param name="peakStressPa">Peak hoop stress [Pa].</param>
    public static double Vinson(double peakStressPa) =>
        peakStressPa <= 0 ? double.PositiveInfinity : 5.05e21 * Math.Pow(peakStressPa / Constants.PsiPa, -4.906);

    /// <summary>Bowman: N = 2.85e8 Δσ^−3.35, Δσ in MPa (Eq. 4.18).</summary>
    /// <param name="stressRangePa">Range of the hoop stress [Pa].</param>
    public static double Bowman(double stressRangePa) => 2.85e8 * Math.Pow(stressRangePa / 1e6, -3.35);

    /// <summary>
    /// Folkman and Parvez, ASCE Pipelines 2020: N = 10^(17.76 − 4.196 log10 σ_a), σ_a in psi; the PVC Pipe Association's
    /// recommended practice. Constants from memory, checked against the association's worked example.
    /// </summary>
    /// <param name="amplitudePa">Amplitude of the hoop stress, half its range [Pa].</param>
    public static double Folkman(double amplitudePa) =>
        Math.Pow(10, 17.76 - FolkmanSlope * Math.Log10(amplitudePa / Constants.PsiPa));

    /// <summary>
    /// Utah State University: σ_a = σ_m (0.01637 x − 0.1697) + 15362/x − 1782, x = log10 N, in psi (Eq. 4.19), solved for N.
    /// </summary>
    /// <remarks>
    /// The form runs out near N = 2e8 even for no amplitude at all. Below the smallest amplitude tested it is therefore carried
    /// on with the slope of <see cref="Folkman"/>: an extrapolation of ours.
    /// </remarks>
    /// <param name="meanPa">Mean hoop stress [Pa], to 5600 psi; suction counts as 0.</param>
    /// <param name="amplitudePa">Amplitude of the hoop stress [Pa].</param>
    public static double UtahState(double meanPa, double amplitudePa)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(meanPa, HighestMeanPa);
        double mean = Math.Max(meanPa, 0) / Constants.PsiPa;
        double tested = Math.Max(amplitudePa, SmallestTestedAmplitudePa);
        // Multiplied by x, the equation is a quadratic; the smaller root is the one with amplitude falling as N grows.
        double a = 0.01637 * mean;
        double b = 0.1697 * mean + 1782 + tested / Constants.PsiPa;
        const double c = 15362;
        double logN = 2 * c / (b + Math.Sqrt(b * b - 4 * a * c));
        return Math.Pow(10, logN) * Math.Pow(tested / amplitudePa, FolkmanSlope);
    }
}
