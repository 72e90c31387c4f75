using Clackbeat.Records.Samples;
using Clackbeat.Records.Tables;
using Clackbeat.Site.Facts;

namespace Clackbeat.Records.Sources;

/// <summary>A table of times and pressures in a text file or a spreadsheet.</summary>
public sealed class TableSource : ISampleSource
{
    private const int BatchSamples = 8192;
    private readonly Func<TraceFile> _open;
    private long _skipped;
    private readonly (RecordStart Start, Fact Remark)? _told;
    private DateTimeOffset? _start;

    private TableSource(string path, Func<TraceFile> open, TraceFile header, TimeZoneInfo? datedIn)
    {
        (Name, _open) = (path, open);
        _told = datedIn is null ? null : StartText.InRemarks(header.LinesAbove, datedIn) ?? StartText.InName(path, datedIn);
        (IsAbsolute, Remarks) = (header.IsAbsolute, header.Remarks);
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public SampleColumns Columns { get; } = new(false, false, false, false);

    /// <summary>True where the header says that pressures count from vacuum, false for gauge pressures, null where it doesn't say.</summary>
    public bool? IsAbsolute { get; }

    /// <summary>What the user should know of how it is read.</summary>
    public IReadOnlyList<Fact> Remarks { get; }

    /// <inheritdoc/>
    public RecordStart? Start => _start is { } utc ? new RecordStart(utc, null) : _told?.Start;

    /// <inheritdoc/>
    public Fact? StartRemark => _start is null ? _told?.Remark : null;

    /// <inheritdoc/>
    public SourceFaults Faults => new(_skipped, [], false);

    /// <summary>Opens a table and reads its header.</summary>
    /// <param name="path">The file.</param>
    /// <param name="columns">Which columns to read.</param>
    /// <param name="datedIn">
    /// Where the table names no dates, take its start from the remarks above it or from its name, in this time zone; null not to.
    /// </param>
    /// <exception cref="Site.InputException">It is no table, or leaves open which columns are meant.</exception>
    public static TableSource Open(string path, TraceColumns columns, TimeZoneInfo? datedIn = null) => Open(path, () => TraceFile.Open(path, columns), datedIn);

    /// <summary>Opens a table of text that lies inside another file, and reads its header.</summary>
    /// <param name="open">Opens it from its beginning; called more than once.</param>
    /// <param name="name">Its name for messages.</param>
    internal static TableSource OpenText(Func<Stream> open, string name) =>
        Open(name, () => TraceFile.OpenText(open, name, TraceColumns.Default), null);

    private static TableSource Open(string name, Func<TraceFile> open, TimeZoneInfo? datedIn)
    {
        using TraceFile header = open();
        return new TableSource(name, open, header, datedIn);
    }

    /// <inheritdoc/>
    public void Read(SampleTaker take, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        using TraceFile trace = _open();
        double[] timesS = new double[BatchSamples];
        double[] pressuresPa = new double[BatchSamples];
        var batch = new Sample[BatchSamples];
        while (trace.Read(timesS, pressuresPa) is > 0 and var count)
        {
            cancellation.ThrowIfCancellationRequested();
            _start = trace.Start;
            for (int i = 0; i < count; i++)
            {
                batch[i] = new Sample(timesS[i], pressuresPa[i]);
            }

            take(batch.AsSpan(0, count));
            progress?.Report(trace.Progress);
        }

        _skipped = trace.SkippedRows;
    }
}
