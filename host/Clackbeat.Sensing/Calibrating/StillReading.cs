using MathNet.Numerics.Statistics;

namespace Clackbeat.Sensing.Calibrating;

/// <summary>The mean of a few seconds of samples under a pressure that ought to stand still.</summary>
public sealed record StillReading
{
    private const int Blocks = 10;

    // A pressure that wanders by more than this share of the span is not standing still: the ram beats, the column drains.
    private const double WanderShare = 0.0025;

    private StillReading()
    {
    }

    /// <summary>Mean [counts].</summary>
    public required double Counts { get; init; }

    /// <summary>Standard uncertainty of the mean [counts], from the means of ten stretches: slow wandering counts.</summary>
    public required double CountsUncertainty { get; init; }

    /// <summary>Standard deviation of single samples [counts].</summary>
    public required double Scatter { get; init; }

    /// <summary>Samples.</summary>
    public required int Samples { get; init; }

    /// <summary>Mean of the supply's readings [counts]; null without any.</summary>
    public required double? SupplyCounts { get; init; }

    /// <summary>Greatest difference between two stretches [counts].</summary>
    public required double WanderCounts { get; init; }

    /// <summary>The pressure stood still enough to be a point.</summary>
    public required bool IsStill { get; init; }

    /// <summary>Averages samples.</summary>
    /// <param name="counts">Samples in their order, at least ten.</param>
    /// <param name="supplyCounts">Readings of the supply; may be empty.</param>
    /// <param name="spanCounts">Counts that the sensor's whole range takes.</param>
    public static StillReading Of(IReadOnlyList<double> counts, IReadOnlyList<double> supplyCounts, double spanCounts)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(counts.Count, Blocks);
        int length = counts.Count / Blocks;
        double[] means = [.. Enumerable.Range(0, Blocks).Select(b => counts.Skip(b * length).Take(length).Average())];
        double wander = means.Max() - means.Min();
        double scatter = counts.StandardDeviation();
        // Without noise to spread it, rounding doesn't average out.
        double rounding = scatter < 0.5 ? 1 / Math.Sqrt(12) : 0;
        return new StillReading
        {
            Counts = counts.Average(),
            CountsUncertainty = Math.Sqrt((means.Variance() / Blocks) + (rounding * rounding)),
            Scatter = scatter,
            Samples = counts.Count,
            SupplyCounts = supplyCounts.Count == 0 ? null : supplyCounts.Average(),
            WanderCounts = wander,
            IsStill = wander <= WanderShare * spanCounts && scatter <= 4 * WanderShare * spanCounts,
        };
    }
}
