using Clackbeat.Frame;
using Clackbeat.Recording.Export;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Traces;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Commands;

/// <summary>A record from a file, whichever it is: a recording or a table, told by what is in it and not by its name.</summary>
internal abstract class TraceInput
{
    /// <summary>Opens a record.</summary>
    /// <param name="session">Tells how far the first pass is.</param>
    /// <param name="path">The file.</param>
    /// <param name="columns">Which columns to read of a table.</param>
    /// <param name="site">The ram; turns a recording's counts into pressure.</param>
    public static TraceInput Open(Session session, string path, TraceColumns columns, RamSite site) =>
        BlockReader.IsRecording(path)
            ? new RecordingInput(path, session.WithProgress(
                $"Checking {Path.GetFileName(path)}", progress => RecordingScan.Of(path, progress, session.Stop)), site)
            : new TableInput(path, columns);

    /// <summary>Columns it can fill beside time and pressure.</summary>
    public abstract ExportColumns Columns { get; }

    /// <summary>Rows that held no usable pair of numbers; known at the end.</summary>
    public virtual long SkippedRows => 0;

    /// <summary>What the file lacks, in words; none when it is all there.</summary>
    public virtual IReadOnlyList<string> Lacks => [];

    /// <summary>What somebody noted while it was recorded.</summary>
    public virtual IReadOnlyList<RecordMark> Marks => [];

    /// <summary>True when something of the record was lost.</summary>
    public virtual bool IsPartial => false;

    /// <summary>Hands out all samples in order.</summary>
    public abstract void Read(Action<ExportRow> take, IProgress<double> progress, CancellationToken stop);

    private sealed class TableInput(string path, TraceColumns columns) : TraceInput
    {
        private const int ChunkSamples = 8192;
        private long skipped;

        public override ExportColumns Columns { get; } = new(false, false, false, false);

        public override long SkippedRows => skipped;

        public override void Read(Action<ExportRow> take, IProgress<double> progress, CancellationToken stop)
        {
            using TraceFile trace = TraceFile.Open(path, columns);
            var timesS = new double[ChunkSamples];
            var pressuresPa = new double[ChunkSamples];
            while (trace.Read(timesS, pressuresPa) is > 0 and var count)
            {
                stop.ThrowIfCancellationRequested();
                for (int i = 0; i < count; i++)
                {
                    take(new ExportRow(timesS[i], pressuresPa[i], null, null, null, null));
                }

                progress.Report(trace.Progress);
            }

            skipped = trace.SkippedRows;
        }
    }

    private sealed class RecordingInput(string path, RecordingScan scan, RamSite site) : TraceInput
    {
        private readonly SensorConversion conversion = SiteSensing.ConversionOf(site);

        public override ExportColumns Columns { get; } = new(
            scan.Sessions.Any(s => s.Segments.Any(g => g.UtcShiftMicroseconds is not null)),
            true,
            scan.Sessions.Any(s => s.Header is not { SupplyEvery: 0 }),
            scan.Sessions.Any(s => s.Header is { DeliveryEvery: > 0 }));

        public override IReadOnlyList<string> Lacks => RecordingWords.Of(scan);

        public override IReadOnlyList<RecordMark> Marks => [.. scan.Marks.Select(m => new RecordMark(m.TimeS, m.Words))];

        public override bool IsPartial => scan.Completeness != Completeness.Complete || scan.Sessions.Any(s => s.Losses.Count > 0);

        public override void Read(Action<ExportRow> take, IProgress<double> progress, CancellationToken stop)
        {
            if (scan.Samples == 0)
            {
                throw new InputException($"{path} is a recording, but holds no sample.{Because()}");
            }

            SamplePass.Read(scan, samples =>
            {
                foreach (RecordedSample sample in samples)
                {
                    take(new ExportRow(
                        sample.TimeS,
                        conversion.PressurePaAt(sample.Counts, sample.SupplyCounts),
                        sample.UtcMicroseconds,
                        sample.Counts,
                        sample.SupplyCounts,
                        sample.DeliveryCounts));
                }
            }, progress, stop);
        }

        private string Because() => Lacks.Count == 0 ? "" : $" Why: {string.Join("; ", Lacks)}.";
    }
}
