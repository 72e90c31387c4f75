using System.Runtime.InteropServices;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;

namespace Clackbeat.Watch.Sources;

/// <summary>
/// A logger on a line, through the recorder that serves recordings too: it finds the logger, waits for a cut cable and
/// starts it again. What it keeps goes to the pipeline, and to a file while somebody records.
/// </summary>
public sealed class LoggerSource : LiveSource
{
    private readonly ILineOpener _opener;
    private readonly RecorderOptions _options;
    private readonly RecordingDesk _desk;
    private readonly SensorConversion _conversion;
    private readonly List<LoggerSample> _samples = [];
    private readonly List<double> _timesS = [];
    private readonly List<double> _pressuresPa = [];
    private FrameReader _reader = new();
    private double _lastS;
    private double _offsetS;
    private long _lastAt;
    private bool _isNewClock;

    /// <summary>Makes a source.</summary>
    /// <param name="opener">Opens the line.</param>
    /// <param name="site">The ram; turns counts into pressure.</param>
    /// <param name="options">How to ask the logger.</param>
    /// <param name="desk">Takes what is recorded.</param>
    /// <param name="kind">A real logger or a virtual one.</param>
    public LoggerSource(ILineOpener opener, RamSite site, RecorderOptions options, RecordingDesk desk, SourceKind kind)
    {
        (_opener, _options, _desk) = (opener, options, desk);
        _conversion = SiteSensing.ConversionOf(site);
        Kind = kind;
    }

    /// <inheritdoc/>
    public override string Name => _opener.Name;

    /// <inheritdoc/>
    public override SourceKind Kind { get; }

    /// <inheritdoc/>
    public override void Run(LivePipeline pipeline, CancellationToken cancellation)
    {
        using var nowhere = new RecordingWriter(new NoStore(), TimeProvider.System);
        var recorder = new Recorder(_opener, _options, nowhere, TimeProvider.System)
        {
            Met = Meet,
            News = news =>
            {
                _desk.Tell(news.State);
                pipeline.Tell(StateOf(news.State), news.Words);
            },
            Taken = chunk => Take(chunk, pipeline),
            Progress = _ =>
            {
                Account(pipeline);
                _desk.Tick();
            },
        };
        try
        {
            recorder.Run(cancellation);
        }
        finally
        {
            _desk.End();
        }
    }

    private void Meet(Hello hello)
    {
        _reader = new FrameReader { Restarted = Restart };
        _reader.Know(hello.Protocol, hello.Fingerprint);
        _desk.Meet(hello, _opener.Name);
    }

    private void Take(LineChunk chunk, LivePipeline pipeline)
    {
        _reader.Read(chunk.Bytes, _samples);
        _desk.Take(chunk, _reader.Hello);
        HandOver(chunk.Timestamp);
        if (_timesS.Count > 0)
        {
            pipeline.Take(CollectionsMarshal.AsSpan(_timesS), CollectionsMarshal.AsSpan(_pressuresPa));
            _timesS.Clear();
            _pressuresPa.Clear();
        }
    }

    // The samples before a restart belong to the clock that has ended.
    private void Restart()
    {
        HandOver(_lastAt);
        _isNewClock = true;
    }

    private void HandOver(long timestamp)
    {
        foreach (LoggerSample sample in _samples)
        {
            double timeS = sample.DeviceTimeMicroseconds * 1e-6;
            if (_isNewClock)
            {
                // Between two clocks of the logger the host's own tells how much time went by.
                double awayS = TimeProvider.System.GetElapsedTime(_lastAt, timestamp).TotalSeconds;
                _offsetS = _lastS + Math.Max(0.001, awayS) - timeS;
                _isNewClock = false;
            }

            _lastS = timeS + _offsetS;
            _timesS.Add(_lastS);
            _pressuresPa.Add(_conversion.PressurePaAt(sample.Counts, sample.SupplyCounts));
        }

        if (_samples.Count > 0)
        {
            _lastAt = timestamp;
            _samples.Clear();
        }
    }

    private void Account(LivePipeline pipeline) => pipeline.Count(new SourceCounts(
        _reader.Losses.LostPoints, _reader.Losses.SkippedPoints, _reader.Losses.Restarts));

    private static LinkState StateOf(RecorderState state) => state switch
    {
        RecorderState.Asking => LinkState.Asking,
        RecorderState.Recording => LinkState.Streaming,
        RecorderState.Silent => LinkState.Silent,
        RecorderState.PortRefused => LinkState.Refused,
        RecorderState.WrongDevice or RecorderState.WrongVersion => LinkState.Wrong,
        _ => LinkState.Lost,
    };

    // Watching alone writes nothing.
    private sealed class NoStore : IRecordingStore
    {
        public void Append(ReadOnlySpan<byte> bytes)
        {
        }

        public void Flush()
        {
        }

        public void Dispose()
        {
        }
    }
}
