using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Records.Samples;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Records.Sources;

/// <summary>A recording: its counts turned into pressures by the site's calibration or data sheet.</summary>
/// <param name="name">What the user calls it.</param>
/// <param name="scan">What the first pass found.</param>
/// <param name="site">The ram.</param>
/// <param name="start">When it began, where it doesn't say so itself or says it wrongly.</param>
public sealed class RecordingSource(string name, RecordingScan scan, RamSite site, RecordStart? start = null) : ISampleSource
{
    private readonly SensorConversion _conversion = SiteSensing.ConversionOf(site);

    /// <inheritdoc/>
    public string Name => name;

    /// <inheritdoc/>
    public SampleColumns Columns { get; } = new(
        scan.Sessions.Any(s => s.Segments.Any(g => g.UtcShiftMicroseconds is not null)),
        true,
        scan.Sessions.Any(s => s.Header is not { SupplyEvery: 0 }),
        scan.Sessions.Any(s => s.Header is { DeliveryEvery: > 0 }));

    /// <inheritdoc/>
    public RecordStart? Start => start;

    /// <inheritdoc/>
    public string? Identity => scan.Sessions is [{ Header: { Source: SessionSource.Burst } header }]
        ? FormattableString.Invariant($"{header.Device} {header.Boot} {header.Burst}")
        : null;

    /// <inheritdoc/>
    public double? BatteryV => scan.Sessions.LastOrDefault(s => s.BatteryCounts is not null)?.BatteryCounts is { } counts
        ? SiteSensing.BatteryVoltsAt(site.Logger, counts)
        : null;

    /// <inheritdoc/>
    public BoardTiming? Board => scan.Sessions.LastOrDefault(s => s.Bench is not null)?.Bench is { } bench ? BoardTiming.Of(bench) : null;

    /// <inheritdoc/>
    public IReadOnlyList<RecordMark> Marks => [.. scan.Marks.Select(m => new RecordMark(m.TimeS, m.Words))];

    /// <inheritdoc/>
    public SourceFaults Faults { get; } = new(
        0,
        RecordingFacts.Of(scan),
        scan.Completeness != Completeness.Complete || scan.Sessions.Any(s => s.Losses.Count > 0));

    /// <summary>Opens a recording.</summary>
    /// <param name="path">The file.</param>
    /// <param name="site">The ram.</param>
    /// <param name="progress">Receives the share of the first pass that is done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work early.</param>
    /// <exception cref="InputException">The file is no recording this program reads.</exception>
    public static RecordingSource Open(string path, RamSite site, IProgress<double>? progress = null, CancellationToken cancellation = default) =>
        new(path, RecordingScan.Of(path, progress, cancellation), site);

    /// <inheritdoc/>
    /// <exception cref="InputException">It holds no sample, or the site describes another converter.</exception>
    public void Read(SampleTaker take, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        if (scan.Samples == 0)
        {
            throw Faults.Lacks.Count == 0
                ? InputException.Of("recording.empty", ("file", name))
                : InputException.Of("recording.empty-why", ("file", name), ("why", Faults.Lacks.ToArray()));
        }

        foreach (SessionFacts session in scan.Sessions.Where(s => s.Header is not null))
        {
            ConverterCheck.Refuse(name, session.Header!.ConverterMax, _conversion);
        }

        Sample[] batch = [];
        SamplePass.Read(scan, recorded =>
        {
            batch = batch.Length < recorded.Length ? new Sample[recorded.Length] : batch;
            for (int i = 0; i < recorded.Length; i++)
            {
                RecordedSample s = recorded[i];
                batch[i] = new Sample(
                    s.TimeS, _conversion.PressurePaAt(s.Counts, s.SupplyCounts), s.UtcMicroseconds, s.Counts, s.SupplyCounts, s.DeliveryCounts);
            }

            take(batch.AsSpan(0, recorded.Length));
        }, progress, cancellation);
    }
}
