using Clackbeat.Records.Samples;
using Clackbeat.Site.Facts;

namespace Clackbeat.Records.Sources;

/// <summary>
/// Where samples come from: a table, a recording, a line, a burst of a lone logger. Commands, analyses and stores know sources
/// by this alone.
/// </summary>
public interface ISampleSource
{
    /// <summary>What the user calls it: a file's path or a port.</summary>
    string Name { get; }

    /// <summary>What its samples carry beside time and pressure.</summary>
    SampleColumns Columns { get; }

    /// <summary>When its first sample was taken, where that is known otherwise than by the samples' own calendar.</summary>
    RecordStart? Start => null;

    /// <summary>How <see cref="Start"/> is known, where neither the record nor its samples hold it themselves; null where they do.</summary>
    Fact? StartRemark => null;

    /// <summary>
    /// What tells it from every other record, where samples alone may not: a dead sensor's bursts are all alike. Null where only
    /// the time does.
    /// </summary>
    string? Identity => null;

    /// <summary>Voltage of the logger's battery, as it told it last [V]; null where it tells none.</summary>
    double? BatteryV => null;

    /// <summary>How well the board that took it tells the samples' times; null where no board measured that. Complete only when all samples were read.</summary>
    BoardTiming? Board => null;

    /// <summary>What somebody did at the ram meanwhile, in order.</summary>
    IReadOnlyList<RecordMark> Marks => [];

    /// <summary>What is wrong with it; complete only when all samples were read.</summary>
    SourceFaults Faults => SourceFaults.None;

    /// <summary>Hands out all samples in order.</summary>
    /// <param name="take">Takes them in batches.</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work early.</param>
    void Read(SampleTaker take, IProgress<double>? progress = null, CancellationToken cancellation = default);
}

/// <summary>When a record's first sample was taken.</summary>
/// <param name="Utc">The instant; the middle where only bounds are known.</param>
/// <param name="UncertaintyS">The truth lies within so much of it, either way [s]; null where nobody said how well it is known.</param>
public readonly record struct RecordStart(DateTimeOffset Utc, double? UncertaintyS);

/// <summary>What is wrong with a source.</summary>
/// <param name="SkippedRows">Rows that held no usable pair of numbers.</param>
/// <param name="Lacks">What was lost; one entry a loss.</param>
/// <param name="IsPartial">Something of the record was lost.</param>
public sealed record SourceFaults(long SkippedRows, IReadOnlyList<Fact> Lacks, bool IsPartial)
{
    /// <summary>Nothing is.</summary>
    public static SourceFaults None { get; } = new(0, [], false);
}
