using Clackbeat.Signal.Figures;
namespace Clackbeat.Signal.Beats;

/// <summary>The rhythm.</summary>
public sealed record BeatSummary
{
    /// <summary>Whole beats.</summary>
    public required int Count { get; init; }

    /// <summary>Beats a minute while beating; null under two closures.</summary>
    public Figure? RatePerMin { get; init; }

    /// <summary>Median interval [s].</summary>
    public double? IntervalMedianS { get; init; }

    /// <summary>5th percentile of the interval [s].</summary>
    public double? IntervalP05S { get; init; }

    /// <summary>95th percentile of the interval [s].</summary>
    public double? IntervalP95S { get; init; }

    /// <summary>Standard deviation of the interval over its mean.</summary>
    public double? Irregularity { get; init; }

    /// <summary>Beats a minute over all whole beats, start-up and stop among them; <see cref="RatePerMin"/> is of the steady part.</summary>
    public Figure? WholeRatePerMin { get; init; }

    /// <summary>The steady part, whose figures these are; null without a beat.</summary>
    public SteadySpan? Steady { get; init; }
}
