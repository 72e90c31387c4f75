using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Slopes;

/// <summary>
/// The median of the slopes of all pairs of points (H. Theil, Indagationes Math. 12 (1950); P. K. Sen, J. Amer. Stat. Assoc.
/// 63 (1968) 1379, doi:10.1080/01621459.1968.10480934), with Sen's interval from the variance of Kendall's S, ties included.
/// Up to 29 % of the points may be anything without the slope following them.
/// </summary>
/// <param name="Slope">Median slope, in the ordinate's unit per unit of the abscissa.</param>
/// <param name="Low">Lower end of its confidence interval.</param>
/// <param name="High">Upper end.</param>
internal readonly record struct PairSlopes(double Slope, double Low, double High)
{
    /// <summary>Slope through any points. The time and the memory grow with the square of their number.</summary>
    /// <param name="x">Abscissae, at least two of them different.</param>
    /// <param name="y">Ordinates, as many.</param>
    /// <param name="confidence">Of the interval, such as 0.95.</param>
    /// <param name="inflation">Factor on the variance of Kendall's S; 1 for independent points.</param>
    public static PairSlopes Of(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double confidence, double inflation = 1)
    {
        var slopes = new List<double>(x.Length * (x.Length - 1) / 2);
        for (int i = 0; i < x.Length; i++)
        {
            for (int j = i + 1; j < x.Length; j++)
            {
                if (x[j] != x[i])
                {
                    slopes.Add((y[j] - y[i]) / (x[j] - x[i]));
                }
            }
        }

        double[] sorted = [.. slopes];
        Array.Sort(sorted);
        double half = Normal.InvCDF(0, 1, 0.5 + (confidence / 2)) * Math.Sqrt(inflation * VarianceOfS(x, y));
        int low = Math.Max(0, (int)Math.Round((sorted.Length - half) / 2) - 1);
        int high = Math.Min(sorted.Length - 1, (int)Math.Round((sorted.Length + half) / 2));
        return new PairSlopes(SortedArrayStatistics.Median(sorted), sorted[low], sorted[high]);
    }

    /// <summary>Variance of Kendall's S, less what ties take from it (Sen 1968, eq. 2.6).</summary>
    private static double VarianceOfS(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        double n = x.Length;
        return ((n * (n - 1) * ((2 * n) + 5)) - Ties(x) - Ties(y)) / 18;
    }

    private static double Ties(ReadOnlySpan<double> values) => values.ToArray().GroupBy(v => v)
        .Select(g => (double)g.Count()).Sum(t => t * (t - 1) * ((2 * t) + 5));
}
