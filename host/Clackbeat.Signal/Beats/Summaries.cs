using Clackbeat.Signal.Figures;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Beats;

/// <summary>Sums up many beats in a few figures. Quantiles interpolate linearly between order statistics .</summary>
internal static class Summaries
{
    // A crystal of ±50 parts in a million times the samples; common for loggers, stated for none. A limit, as data sheets give it.
    private const double ClockLimit = 5e-5;

    /// <summary>The rhythm of the beats.</summary>
    /// <param name="beats">Whole beats in order.</param>
    /// <param name="stepS">Usual sampling step [s]; half of it bounds the error of a closure's instant.</param>
    /// <param name="instantS">Standard uncertainty of a sample's own instant [s].</param>
    public static BeatSummary Rhythm(IReadOnlyList<Beat> beats, double stepS, double instantS = 0)
    {
        if (beats.Count == 0)
        {
            return new BeatSummary { Count = 0 };
        }

        double[] intervals = [.. beats.Select(b => b.IntervalS)];
        var mean = MeanOfSeries.Of(intervals);
        double deviationS = intervals.Length > 1 ? intervals.StandardDeviation() : 0;

        // A closure's instant lies within half a step, and the mean interval hangs on the first and the last.
        double closuresS = Math.Sqrt(2) * double.Hypot(Expanded.OfBound(0.5 * stepS), instantS) / intervals.Length;
        double clockS = Expanded.OfBound(ClockLimit * mean.Mean);
        Array.Sort(intervals);
        return new BeatSummary
        {
            Count = beats.Count,
            RatePerMin = mean.Standard is { } scatterS ? RateOf(Expanded.Of(mean.Mean, scatterS, mean.Freedom, closuresS, clockS)) : null,
            IntervalMedianS = Quantile(intervals, 0.5),
            IntervalP05S = Quantile(intervals, 0.05),
            IntervalP95S = Quantile(intervals, 0.95),
            Irregularity = beats.Count > 1 ? deviationS / mean.Mean : null,
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

    /// <summary>Median of one figure of the beats.</summary>
    public static double Median(IReadOnlyList<Beat> beats, Func<Beat, double> figure) => Quantile(Sorted(beats, figure), 0.5);

    /// <summary>Median of one figure of the beats with what its scatter and other uncertainties leave open; null for one beat.</summary>
    /// <param name="beats">Beats in order.</param>
    /// <param name="figure">The figure.</param>
    /// <param name="others">Standard uncertainties that all beats share.</param>
    public static Figure? Median(IReadOnlyList<Beat> beats, Func<Beat, double> figure, params ReadOnlySpan<double> others)
    {
        var mean = MeanOfSeries.Of([.. beats.Select(figure)]);

        // The median of normal values scatters sqrt(pi/2) times as much as their mean.
        return mean.Standard is { } scatter
            ? Expanded.Of(Median(beats, figure), Math.Sqrt(Math.PI / 2) * scatter, mean.Freedom, others)
            : null;
    }

    // To first order; the interval's relative uncertainty is small.
    private static Figure RateOf(Figure intervalS) =>
        new(60 / intervalS.Value, 60 * intervalS.U / (intervalS.Value * intervalS.Value), intervalS.K);
}
