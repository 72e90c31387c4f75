using Clackbeat.Signal.Beats;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Analysis;

/// <summary>Sums up many beats in a few figures. Quantiles interpolate linearly between order statistics .</summary>
internal static class Summaries
{
    // A crystal of ±50 parts in a million times the samples; common for loggers, stated for none.
    private const double ClockUncertainty = 5e-5;

    /// <summary>The rhythm of the beats.</summary>
    /// <param name="beats">Whole beats in order.</param>
    /// <param name="stepS">Usual sampling step [s]; half of it bounds the error of a closure's instant.</param>
    public static BeatSummary Rhythm(IReadOnlyList<Beat> beats, double stepS)
    {
        if (beats.Count == 0)
        {
            return new BeatSummary { Count = 0 };
        }

        double[] intervals = [.. beats.Select(b => b.IntervalS)];
        double meanS = intervals.Mean();
        double deviationS = intervals.Length > 1 ? intervals.StandardDeviation() : 0;

        // Scatter of the beats and, for few beats, the closures' own error at both ends (JCGM 100:2008 §5.1.2).
        double standardS = Math.Sqrt(
            (deviationS * deviationS / intervals.Length)
            + (2 * Square(0.5 * stepS / Math.Sqrt(3) / intervals.Length))
            + Square(ClockUncertainty * meanS));
        Array.Sort(intervals);
        return new BeatSummary
        {
            Count = beats.Count,
            RatePerMin = new Figure(60 / meanS, 2 * 60 * standardS / (meanS * meanS)),
            IntervalMedianS = Quantile(intervals, 0.5),
            IntervalP05S = Quantile(intervals, 0.05),
            IntervalP95S = Quantile(intervals, 0.95),
            Irregularity = beats.Count > 1 ? deviationS / meanS : null,
        };
    }

    /// <summary>Quantile of sorted values.</summary>
    public static double Quantile(double[] sorted, double share) =>
        SortedArrayStatistics.QuantileCustom(sorted, share, QuantileDefinition.R7);

    /// <summary>Sorted copy of one figure of each beat.</summary>
    public static double[] Sorted(IReadOnlyList<Beat> beats, Func<Beat, double> figure)
    {
        double[] values = [.. beats.Select(figure)];
        Array.Sort(values);
        return values;
    }

    /// <summary>Median of one figure of the beats and twice its standard error from the beats' scatter.</summary>
    public static Figure Median(IReadOnlyList<Beat> beats, Func<Beat, double> figure)
    {
        double[] sorted = Sorted(beats, figure);
        double deviation = sorted.Length > 1 ? ArrayStatistics.StandardDeviation(sorted) : 0;

        // 1.2533 = sqrt(pi/2): the median of normal values scatters that much more than their mean.
        return new Figure(Quantile(sorted, 0.5), 2 * 1.2533 * deviation / Math.Sqrt(sorted.Length));
    }

    private static double Square(double value) => value * value;
}
