using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Link;
using Clackbeat.Records.Samples;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Records.Sources;

/// <summary>
/// A logger on a line, through the recorder that serves recordings too: it finds the logger, waits for a cut cable and starts it
/// again. Samples come as they are taken, until somebody stops it or the time asked for is up.
/// </summary>
/// <param name="opener">Opens the line.</param>
/// <param name="site">The ram; turns counts into pressure.</param>
/// <param name="options">How to ask the logger.</param>
/// <param name="time">The host's clocks.</param>
public sealed class LineSource(ILineOpener opener, RamSite site, RecorderOptions options, TimeProvider time) : ISampleSource
{
    private readonly SensorConversion _conversion = SiteSensing.ConversionOf(site);
    private readonly List<LoggerSample> _taken = [];
    private readonly List<Sample> _batch = [];
    private FrameReader _reader = new();
    private long? _firstUs;
    private double _lastS;
    private double _offsetS;
    private long _lastAt;
    private bool _isNewClock;

    /// <inheritdoc/>
    public string Name => opener.Name;

    /// <inheritdoc/>
    public SampleColumns Columns { get; } = new(false, true, true, true);

    /// <summary>Told of the logger that was met, before its first bytes.</summary>
    public Action<Hello>? Met { get; set; }

    /// <summary>Told of each chunk of the logger before its samples are handed out, with the logger's newest hello.</summary>
    public Action<LineChunk, Hello?>? Chunk { get; set; }

    /// <summary>Told of each change of the link.</summary>
    public Action<RecorderNews>? News { get; set; }

    /// <summary>Called twice a second while the line is read.</summary>
    public Action? Ticked { get; set; }

    /// <summary>What is missing so far, by the frames themselves.</summary>
    public LossAccount Losses => _reader.Losses;

    /// <inheritdoc/>
    public SourceFaults Faults => Losses.LostPoints + Losses.SkippedPoints > 0
        ? new SourceFaults(0, [Fact.Of("samples-lost-on-line", ("samples", Losses.LostPoints + Losses.SkippedPoints))], true)
        : SourceFaults.None;

    /// <inheritdoc/>
    /// <remarks>Ends in order when it is stopped: what came until then was handed out.</remarks>
    /// <exception cref="LineException">The port can't be used, or nobody answers on it.</exception>
    /// <exception cref="InputException">The logger speaks another protocol or refuses the settings.</exception>
    public void Read(SampleTaker take, IProgress<double>? progress = null, CancellationToken cancellation = default) =>
        new Recorder(opener, options, time)
        {
            Met = Meet,
            News = news => News?.Invoke(news),
            Taken = chunk => Take(chunk, take),
            Progress = done =>
            {
                Ticked?.Invoke();
                if (options.Length is { } length)
                {
                    progress?.Report(Math.Min(1, done.RecordedS / length.TotalSeconds));
                }
            },
        }.Run(cancellation);

    private void Meet(Hello hello)
    {
        ConverterCheck.Refuse(Name, hello.ConverterMax, _conversion);
        _reader = new FrameReader { Restarted = Restart };
        _reader.Know(hello.Protocol, hello.Fingerprint);
        Met?.Invoke(hello);
    }

    private void Take(LineChunk chunk, SampleTaker take)
    {
        _reader.Read(chunk.Bytes, _taken);
        Chunk?.Invoke(chunk, _reader.Hello);
        Place(chunk.Timestamp);
        if (_batch.Count > 0)
        {
            take(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_batch));
            _batch.Clear();
        }
    }

    // The samples before a restart belong to the clock that has ended.
    private void Restart()
    {
        Place(_lastAt);
        _isNewClock = true;
    }

    // From the first sample, as in a recording, so that the same samples give the same times.
    private void Place(long timestamp)
    {
        foreach (LoggerSample sample in _taken)
        {
            _firstUs ??= sample.DeviceTimeMicroseconds;
            double timeS = (sample.DeviceTimeMicroseconds - _firstUs.Value) / 1e6;
            if (_isNewClock)
            {
                // Between two clocks of the logger the host's own tells how much time went by.
                double awayS = time.GetElapsedTime(_lastAt, timestamp).TotalSeconds;
                _offsetS = _lastS + Math.Max(0.001, awayS) - timeS;
                _isNewClock = false;
            }

            _lastS = timeS + _offsetS;
            _batch.Add(new Sample(
                _lastS, _conversion.PressurePaAt(sample.Counts, sample.SupplyCounts), null, sample.Counts, sample.SupplyCounts, sample.DeliveryCounts));
        }

        if (_taken.Count > 0)
        {
            _lastAt = timestamp;
            _taken.Clear();
        }
    }
}
