using Clackbeat.Signal.States;

namespace Clackbeat.Season.Store;

/// <summary>One burst as the store keeps it: its summary and a compact record of its beats.</summary>
public sealed record SeasonBurst
{
    /// <summary>Name of the ram.</summary>
    public required string Ram { get; init; }

    /// <summary>Hash of what was recorded (32 bytes): a burst of the same hash is never stored twice.</summary>
    public required byte[] SourceHash { get; init; }

    /// <summary>Where it came from, for people.</summary>
    public required string Source { get; init; }

    /// <summary>Instant of the first sample, UTC; local time is a matter of showing it.</summary>
    public required DateTimeOffset StartUtc { get; init; }

    /// <summary>
    /// The true start lies within so much of <see cref="StartUtc"/>, either way [s]; null where nobody said, as for a recording that
    /// this computer's own clock dated.
    /// </summary>
    public double? StartUncertaintyS { get; init; }

    /// <summary>First to last sample [s].</summary>
    public required double DurationS { get; init; }

    /// <summary>State at the burst's end.</summary>
    public required RamState State { get; init; }

    /// <summary>"complete", or what was lost, in words.</summary>
    public string Completeness { get; init; } = "complete";

    /// <summary>Figures with their expanded uncertainty; what could not be told is left out.</summary>
    public required IReadOnlyDictionary<SeasonFigure, SeasonValue> Figures { get; init; }

    /// <summary>Condition codes and probabilities.</summary>
    public IReadOnlyDictionary<string, double> Conditions { get; init; } = new Dictionary<string, double>();

    /// <summary>The beats.</summary>
    public IReadOnlyList<SeasonBeat> Beats { get; init; } = [];
}

/// <summary>A stored figure.</summary>
/// <param name="Value">The figure, SI.</param>
/// <param name="U">Expanded uncertainty, k = 2; null for one that carries none, such as a largest sample.</param>
public readonly record struct SeasonValue(double Value, double? U)
{
    /// <summary>True where the figure can only be an upper bound.</summary>
    public bool IsUpperBound { get; init; }
}

/// <summary>One beat as the store keeps it.</summary>
/// <param name="ClosureS">Closure since the burst's first sample [s], kept to 0.1 ms.</param>
/// <param name="IntervalS">To the next closure [s], kept to 0.1 ms.</param>
/// <param name="PeakPa">Largest sample [Pa], kept to 100 Pa.</param>
/// <param name="DeliveryPa">Delivery plateau [Pa], kept to 100 Pa.</param>
/// <param name="SuctionPa">Lowest sample [Pa], kept to 100 Pa.</param>
/// <param name="Flow">What flowed: closing velocity kept to 1 mm/s, volumes to 0.1 mL; null where that was withheld.</param>
public readonly record struct SeasonBeat(
    double ClosureS, double IntervalS, double PeakPa, double DeliveryPa, double SuctionPa, Signal.Beats.BeatFlow? Flow);

/// <summary>Something a keeper did.</summary>
/// <param name="Ram">Name of the ram.</param>
/// <param name="AtUtc">When.</param>
/// <param name="Words">What.</param>
public sealed record MaintenanceMark(string Ram, DateTimeOffset AtUtc, string Words);

/// <summary>A figure's value at a burst.</summary>
/// <param name="AtUtc">Start of the burst.</param>
/// <param name="Value">The figure, SI.</param>
/// <param name="U">Expanded uncertainty, k = 2; null for none.</param>
public readonly record struct SeasonPoint(DateTimeOffset AtUtc, double Value, double? U)
{
    /// <summary>True where the figure can only be an upper bound.</summary>
    public bool IsUpperBound { get; init; }
}

/// <summary>What a burst says of running.</summary>
/// <param name="AtUtc">Start.</param>
/// <param name="DurationS">Length [s].</param>
/// <param name="State">State at its end.</param>
public readonly record struct BurstState(DateTimeOffset AtUtc, double DurationS, RamState State);
