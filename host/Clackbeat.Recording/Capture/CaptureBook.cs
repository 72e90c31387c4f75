using System.Globalization;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Recording.Time;

namespace Clackbeat.Recording.Capture;

/// <summary>
/// Keeps what comes from an accepted logger: bytes verbatim into the recording, and beside them an account of samples
/// and of what is missing and why.
/// </summary>
public sealed class CaptureBook
{
    private readonly RecordingWriter _writer;
    private readonly FrameReader _reader = new();
    private readonly List<LoggerSample> _samples = [];
    private readonly LossGatherer _gathered = new();
    private readonly Dictionary<LossCause, LossTotal> _totals = [];
    private readonly JunkGate _gate;
    private LossRecord? _break;
    private long _brokenPoints;
    private int _cuts;
    private long _discarded;
    private long _periodMicroseconds;
    private long _elapsed;
    private long _lastDevice = LossRecord.Unknown;
    private long _recorded;
    private bool _begun;

    /// <summary>Makes a book.</summary>
    /// <param name="writer">Takes the recording.</param>
    /// <param name="met">What the logger said of itself: noise may hit the hello before the first sample.</param>
    public CaptureBook(RecordingWriter writer, Hello met)
    {
        _writer = writer;
        _periodMicroseconds = Math.Max(1, met.PeriodMicroseconds);
        _reader.Know(met.Protocol, met.Fingerprint);
        _reader.GapFound = TakeGap;
        _reader.Restarted = TakeRestart;
        _reader.OtherFrame = (kind, body) =>
        {
            Bench told = new();
            Bench = kind == Kinds.Bench && told.TryRead(body, body.Length) ? told : Bench;
        };
        _gate = new JunkGate(
            chunk => _writer.AddBytes(chunk.Bytes, _writer.ElapsedAt(chunk.Timestamp)),
            bytes => _gathered.Add(LossCause.WrongDevice, bytes, _elapsed));
    }

    /// <summary>Told of each chunk that is kept, on the recorder's thread, before it is read here.</summary>
    public Action<LineChunk>? Taken { get; set; }

    /// <summary>Samples so far.</summary>
    public long Samples { get; private set; }

    /// <summary>Samples that are on the disk itself.</summary>
    public long DurableSamples { get; private set; }

    /// <summary>When the newest sample came, as the time provider counts.</summary>
    public long LastSampleAt { get; private set; }

    /// <summary>What the logger told of its own board last; null for nothing.</summary>
    public Bench? Bench { get; private set; }

    /// <summary>How often the logger restarted.</summary>
    public int Restarts => _reader.Losses.Restarts;

    /// <summary>True between a break and the first sample behind it.</summary>
    public bool IsBroken => _break is not null;

    /// <summary>Ties the logger's clock to this host's.</summary>
    public ClockFit Clock { get; private set; } = new();

    /// <summary>What is missing so far, by cause.</summary>
    public IReadOnlyDictionary<LossCause, LossTotal> Totals => _totals;

    /// <summary>Time recorded, breaks counted in [µs].</summary>
    public long RecordedMicroseconds =>
        _recorded + (_break is { } open ? Math.Max(0, _writer.ElapsedMicroseconds - open.FromElapsedMicroseconds) : 0);

    /// <summary>Opens the session: what came until now and all that follows may go to the disk.</summary>
    public void Begin(SessionHeader header, IReadOnlyList<RecordingDocument> documents)
    {
        _writer.Begin(header, documents);
        _begun = true;
        DurableSamples = Samples;
    }

    /// <summary>The line was opened anew. A frame that the cut tore is read on, as it will be from the file.</summary>
    public void BeginLine() => _gate.Reset();

    /// <summary>Takes bytes as they came.</summary>
    public void Take(LineChunk chunk)
    {
        Taken?.Invoke(chunk);
        _elapsed = _writer.ElapsedAt(chunk.Timestamp);
        int good = _reader.GoodFrames;
        _reader.Read(chunk.Bytes, _samples);
        _gate.Take(chunk, _reader.GoodFrames > good);
        long discarded = _reader.DiscardedBytes - _discarded;
        if (discarded > 0)
        {
            _discarded += discarded;
            _gathered.Add(LossCause.Noise, discarded, _elapsed);
        }

        TakeSamples(chunk.Timestamp);
        if (_begun)
        {
            FlushIfDue();
        }
    }

    /// <summary>Nothing comes any more; the loss ends with the next sample.</summary>
    public void Break(LossCause cause, string detail)
    {
        _break ??= new LossRecord
        {
            Cause = cause,
            FromElapsedMicroseconds = _writer.ElapsedMicroseconds,
            FromDeviceMicroseconds = _lastDevice,
            Detail = detail,
        };
        _cuts += cause == LossCause.LinkCut ? 1 : 0;
        if (_begun)
        {
            // Who waits for a logger may wait long; what came before is made safe first.
            _writer.Flush();
            DurableSamples = Samples;
        }
    }

    /// <summary>Bytes were thrown away that were no logger's, or that this computer could not take.</summary>
    public void CountBytes(LossCause cause, long bytes) => _gathered.Add(cause, bytes, _writer.ElapsedMicroseconds);

    /// <summary>Takes a text along from here on, such as a mark that somebody made; its block tells when.</summary>
    public void Add(RecordingDocument document) => _writer.Add(document);

    /// <summary>Writes and flushes what is due.</summary>
    public void Tick()
    {
        Write(_gathered.Take(_writer.ElapsedMicroseconds, all: false));
        FlushIfDue();
    }

    /// <summary>The disk failed: what was not acknowledged counts as lost, though some of it may be found there.</summary>
    public void LoseUnflushed()
    {
        long samples = Samples - DurableSamples;
        _totals[LossCause.Disk] = new LossTotal(1, samples, samples * _periodMicroseconds / 1e6, 0);
    }

    /// <summary>Closes the session.</summary>
    public void End(EndReason reason)
    {
        CloseBreak(LossRecord.Unknown);
        _gate.Close();
        Write(_gathered.Take(0, all: true));
        _writer.End(reason, Samples);
    }

    // What is missing before the first sample behind a break is the break's own loss and counts once.
    private void TakeGap(StreamGap gap)
    {
        if (IsBroken && _samples.Count == 0)
        {
            _brokenPoints += gap.Points;
        }
        else
        {
            _gathered.Add(gap, _elapsed);
        }
    }

    private void FlushIfDue()
    {
        long before = _writer.DurableBytes;
        _writer.FlushIfDue();
        DurableSamples = _writer.DurableBytes > before ? Samples : DurableSamples;
    }

    private void TakeSamples(long timestamp)
    {
        if (_samples.Count == 0)
        {
            return;
        }

        LastSampleAt = timestamp;
        CloseBreak(_samples[0].DeviceTimeMicroseconds);
        Count(_samples);
        Clock.Add(_lastDevice, _elapsed);
        _samples.Clear();
        _periodMicroseconds = Math.Max(1, _reader.Hello?.PeriodMicroseconds ?? _periodMicroseconds);
    }

    private void Count(List<LoggerSample> samples)
    {
        long last = samples[^1].DeviceTimeMicroseconds;
        long since = _lastDevice >= 0 && _lastDevice <= last ? _lastDevice : samples[0].DeviceTimeMicroseconds;
        _recorded += last - since;
        _lastDevice = last;
        Samples += samples.Count;
    }

    // The samples before it belong to the clock that has ended.
    private void TakeRestart()
    {
        if (_samples.Count > 0)
        {
            CloseBreak(_samples[0].DeviceTimeMicroseconds);
            Count(_samples);
            _samples.Clear();
        }

        Break(LossCause.Restart, "the logger restarted");
        if (_break is { Cause: not LossCause.Restart } open)
        {
            _break = open with { Detail = open.Detail + "; the logger restarted meanwhile" };
        }

        _break = _break! with { ToDeviceMicroseconds = LossRecord.Unknown, FromDeviceMicroseconds = LossRecord.Unknown };
        _lastDevice = LossRecord.Unknown;
        Clock = new ClockFit();
    }

    private void CloseBreak(long firstDevice)
    {
        if (_break is not { } open)
        {
            return;
        }

        bool sameClock = open.FromDeviceMicroseconds >= 0 && firstDevice >= open.FromDeviceMicroseconds;
        long elapsed = Math.Max(open.FromElapsedMicroseconds, firstDevice >= 0 ? _elapsed : _writer.ElapsedMicroseconds);
        long length = sameClock ? firstDevice - open.FromDeviceMicroseconds : elapsed - open.FromElapsedMicroseconds;
        if (!sameClock)
        {
            _recorded += length;
        }

        Write([open with
        {
            ToElapsedMicroseconds = elapsed,
            ToDeviceMicroseconds = sameClock ? firstDevice : LossRecord.Unknown,
            Samples = sameClock ? _brokenPoints : length / _periodMicroseconds,
            Detail = open.Detail + CutsAgain(open.Cause),
        }]);
        _break = null;
        _brokenPoints = 0;
        _cuts = 0;
    }

    // Cuts with no sample between them are one loss; how many they were is said.
    private string CutsAgain(LossCause cause) => (cause, _cuts) switch
    {
        (LossCause.LinkCut, > 1) => Text($", {_cuts} times before a sample came"),
        (not LossCause.LinkCut, 1) => "; the link was lost meanwhile",
        (not LossCause.LinkCut, > 1) => Text($"; the link was lost {_cuts} times meanwhile"),
        _ => "",
    };

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private void Write(List<LossRecord> losses)
    {
        foreach (LossRecord loss in losses)
        {
            _writer.AddLoss(loss);
            LossTotal before = _totals.GetValueOrDefault(loss.Cause);
            _totals[loss.Cause] = new LossTotal(
                before.Records + 1,
                before.Samples + Math.Max(0, loss.Samples),
                before.LengthS + loss.MissingS(_periodMicroseconds),
                before.Bytes + loss.Bytes);
        }
    }
}
