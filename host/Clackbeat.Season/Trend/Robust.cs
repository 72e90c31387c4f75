using MathNet.Numerics.Statistics;

namespace Clackbeat.Season.Trend;

/// <summary>Middle and scatter that a few bad values don't bend.</summary>
internal static class Robust
{
    /// <summary>Median.</summary>
    public static double Median(IEnumerable<double> values) => SortedArrayStatistics.Median([.. values.Order()]);

    /// <summary>
    /// Standard deviation by the median absolute deviation: times 1.4826, which is right for a normal distribution (F. R. Hampel,
    /// J. Amer. Stat. Assoc. 69 (1974) 383).
    /// </summary>
    public static double Deviation(IReadOnlyCollection<double> values)
    {
        double middle = Median(values);
        return 1.4826 * Median(values.Select(v => Math.Abs(v - middle)));
    }
}
