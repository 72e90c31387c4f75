using MathNet.Numerics.Statistics;

namespace Clackbeat.Season.Trend;

/// <summary>How alike neighbouring values are, and how much less they tell for it: a process of order one, y' = ρ y + noise.</summary>
public static class SerialCorrelation
{
    // A stretch of days can't tell a stronger memory from a drift.
    private const double Strongest = 0.9;

    /// <summary>Factor on the variance of a mean, (1 + ρ)/(1 − ρ), from a series without trend; never under 1.</summary>
    /// <param name="residuals">Evenly spaced values about zero, in order.</param>
    /// <remarks>Of n values about their own middle ρ comes out too small by (1 + 4ρ)/n (M. G. Kendall, Biometrika 41 (1954) 403).</remarks>
    public static double Inflation(IReadOnlyList<double> residuals)
    {
        double all = residuals.Sum(r => r * r);
        double pairs = residuals.Zip(residuals.Skip(1), (a, b) => a * b).Sum();
        double n = residuals.Count;
        return all > 0 && n > 4 ? Factor(((pairs / all) + (1 / n)) / (1 - (4 / n))) : 1;
    }

    /// <summary>(1 + ρ)/(1 − ρ), ρ held between 0 and 0.9.</summary>
    public static double Factor(double correlation)
    {
        double rho = Math.Clamp(correlation, 0, Strongest);
        return (1 + rho) / (1 - rho);
    }

    /// <summary>
    /// Deviation and correlation of the noise from differences over one and two steps, which jumps and drifts hardly touch: with
    /// m_k the median of |y(i+k) − y(i)|, ρ = (m₂/m₁)² − 1 (S. Chakar, É. Lebarbier, C. Lévy-Leduc and S. Robin, Bernoulli 23
    /// (2017) 1408, doi:10.3150/15-BEJ782), and σ² = (m₁/0.6745)² / (2 (1 − ρ)).
    /// </summary>
    /// <param name="values">Values in order, three at least.</param>
    public static (double Sigma, double Correlation) Robust(IReadOnlyList<double> values)
    {
        double one = Difference(values, 1);
        if (one == 0)
        {
            // More than half of the values repeat the one before, as a level that was typed in does: medians can't tell then.
            double squares = values.Skip(1).Zip(values, (later, earlier) => (later - earlier) * (later - earlier)).Mean();
            return (Math.Sqrt(squares / 2), 0);
        }

        double two = Difference(values, 2);
        double rho = Math.Clamp((two * two / (one * one)) - 1, 0, Strongest);
        return (one / 0.6745 / Math.Sqrt(2 * (1 - rho)), rho);
    }

    private static double Difference(IReadOnlyList<double> values, int lag) =>
        values.Skip(lag).Zip(values, (later, earlier) => Math.Abs(later - earlier)).Median();
}
