using MathNet.Numerics.Distributions;

namespace Clackbeat.Signal.Figures;

/// <summary>From standard uncertainties to an expanded one (JCGM 100:2008 annex G).</summary>
public static class Expanded
{
    /// <summary>The share of cases in which value ± U is to hold the truth: that of k = 2 for a normal distribution.</summary>
    public const double Coverage = 0.9545;

    // From so many degrees of freedom on Student's factor is that of the normal distribution within three millionths, (z³ + z)/4ν, and the
    // library's search for its quantile may no longer end.
    private const double Plenty = 1e6;

    /// <summary>Coverage factor for a number of degrees of freedom: Student's (table G.2), which tends to 2.</summary>
    /// <param name="freedom">Degrees of freedom, at least 1; infinite for what is known otherwise than from scatter.</param>
    public static double Factor(double freedom) =>
        freedom < Plenty ? StudentT.InvCDF(0, 1, Math.Max(1, freedom), 0.5 + (Coverage / 2)) : 2;

    /// <summary>
    /// A figure with the scatter of few values and other uncertainties in it: root of squares (§5.1.2), effective degrees of freedom
    /// by Welch and Satterthwaite (eq. G.2b), the others taken as known.
    /// </summary>
    /// <param name="value">The figure.</param>
    /// <param name="scatter">Standard uncertainty from scatter.</param>
    /// <param name="freedom">Its degrees of freedom.</param>
    /// <param name="others">The other standard uncertainties.</param>
    public static Figure Of(double value, double scatter, double freedom, params ReadOnlySpan<double> others)
    {
        double variance = scatter * scatter;
        foreach (double other in others)
        {
            variance += other * other;
        }

        double k = Factor(scatter > 0 ? freedom * variance * variance / Math.Pow(scatter, 4) : double.PositiveInfinity);
        return new Figure(value, k * Math.Sqrt(variance), k);
    }

    /// <summary>Standard uncertainty of what is only known to lie within ± a bound: a rectangular distribution (§4.3.7).</summary>
    /// <param name="bound">Half the width.</param>
    public static double OfBound(double bound) => bound / Math.Sqrt(3);
}
