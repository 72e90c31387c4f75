using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Recording.Time;

namespace Clackbeat.Recording.Capture;

/// <summary>
/// Keeps what comes from an accepted logger: bytes verbatim into the recording, and beside them an account of samples
/// and of what is missing and why.
/// </summary>
internal sealed class CaptureBook
{
    // What runs on for longer without one good frame is no noise on a line but another device, or a wrong speed.
    private const long JunkToStore = 8192;

    private readonly RecordingWriter _writer;
    private readonly FrameReader _reader = new();
    private readonly List<LoggerSample> _samples = [];
    private readonly LossGatherer _gathered = new();
    private readonly Dictionary<LossCause, LossTotal> _totals = [];
    private LossRecord? _break;
    private long _junk;
    private long _unstored;
    private LineChunk? _held;
    private long _discarded;
    private long _periodMicroseconds;
    private long _elapsed;
    private long _lastDevice = LossRecord.Unknown;
    private long _recorded;

    public CaptureBook(RecordingWriter writer, long periodMicroseconds)
    {
        _writer = writer;
        _periodMicroseconds = Math.Max(1, periodMicroseconds);
        _reader.GapFound = gap => _gathered.Add(gap, _elapsed);
        _reader.Restarted = TakeRestart;
    }

    /// <summary>Samples so far.</summary>
    public long Samples { get; private set; }

    /// <summary>When the newest sample came, as the time provider counts.</summary>
    public long LastSampleAt { get; private set; }

    /// <summary>How often the logger started anew.</summary>
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

    /// <summary>The line was opened anew: what was unfinished on the last one stays so.</summary>
    public void BeginLine()
    {
        _reader.BreakLine();
        _held = null;
        _junk = 0;
    }

    /// <summary>Takes bytes as they came.</summary>
    public void Take(LineChunk chunk)
    {
        _elapsed = _writer.ElapsedAt(chunk.Timestamp);
        int good = _reader.GoodFrames;
        _reader.Read(chunk.Bytes, _samples);
        bool sense = _reader.GoodFrames > good;
        Store(chunk, sense);
        long discarded = _reader.DiscardedBytes - _discarded;
        if (discarded > 0)
        {
            _discarded += discarded;
            _gathered.Add(LossCause.Noise, discarded, _elapsed);
        }

        TakeSamples(chunk.Timestamp);
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
    }

    /// <summary>Bytes were thrown away that were no logger's, or that this computer could not take.</summary>
    public void CountBytes(LossCause cause, long bytes) => _gathered.Add(cause, bytes, _writer.ElapsedMicroseconds);

    /// <summary>Writes and flushes what is due.</summary>
    public void Tick()
    {
        Write(_gathered.Take(_writer.ElapsedMicroseconds, all: false));
        _writer.FlushIfDue();
    }

    /// <summary>Closes the session.</summary>
    public void End(EndReason reason)
    {
        CloseBreak(LossRecord.Unknown);
        CountUnstored();
        Write(_gathered.Take(0, all: true));
        _writer.End(reason, Samples);
    }

    private void Store(LineChunk chunk, bool sense)
    {
        if (sense)
        {
            if (_held is { } held)
            {
                // A good frame may have begun in it.
                _unstored -= held.Bytes.Length;
                _writer.AddBytes(held.Bytes, _writer.ElapsedAt(held.Timestamp));
            }

            _held = null;
            _junk = 0;
            CountUnstored();
        }
        else
        {
            _junk += chunk.Bytes.Length;
        }

        if (_junk > JunkToStore)
        {
            _held = chunk;
            _unstored += chunk.Bytes.Length;
            return;
        }

        _writer.AddBytes(chunk.Bytes, _elapsed);
    }

    private void CountUnstored()
    {
        if (_unstored > 0)
        {
            _gathered.Add(LossCause.WrongDevice, _unstored, _elapsed);
            _unstored = 0;
        }
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
        _periodMicroseconds = Math.Max(1, _reader.Hello?.PeriodMicroseconds ?? 1000);
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
            Count(_samples);
            _samples.Clear();
        }

        Break(LossCause.Restart, "the logger started anew");
        if (_break is { Cause: not LossCause.Restart } open)
        {
            _break = open with { Detail = open.Detail + "; the logger started anew meanwhile" };
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
            Samples = Math.Max(0, (length / _periodMicroseconds) - (sameClock ? 1 : 0)),
        }]);
        _break = null;
    }

    private void Write(List<LossRecord> losses)
    {
        foreach (LossRecord loss in losses)
        {
            _writer.AddLoss(loss);
            LossTotal before = _totals.GetValueOrDefault(loss.Cause);
            _totals[loss.Cause] = new LossTotal(
                before.Records + 1,
                before.Samples + Math.Max(0, loss.Samples),
                before.LengthS + (loss.LengthS ?? 0),
                before.Bytes + loss.Bytes);
        }
    }
}

/// <summary>All losses of one cause.</summary>
/// <param name="Records">How many records.</param>
/// <param name="Samples">Samples missing.</param>
/// <param name="LengthS">How long in all [s].</param>
/// <param name="Bytes">Bytes thrown away.</param>
public readonly record struct LossTotal(int Records, long Samples, double LengthS, long Bytes);
