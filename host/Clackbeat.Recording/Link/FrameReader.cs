using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.Protocol.Samples;
using Clackbeat.Recording.Files;
using Clackbeat.Site;

namespace Clackbeat.Recording.Link;

/// <summary>
/// Turns a logger's bytes, from a line or a file, into samples with true times, and keeps account of what is missing.
/// The bytes may come in any chunking.
/// </summary>
public sealed class FrameReader
{
    private readonly FrameDecoder _decoder = new();
    private readonly SampleFrameReader _frame = new();
    private int? _expectedSequence;
    private long? _expectedPoint;
    private int? _supplyCounts;
    private int? _deliveryCounts;
    private bool _knowsLayout;

    /// <summary>What is missing so far.</summary>
    public LossAccount Losses { get; } = new();

    /// <summary>The last hello; null before the first.</summary>
    public Hello? Hello { get; private set; }

    /// <summary>The last health; null before the first.</summary>
    public Health? Health { get; private set; }

    /// <summary>The words of the last fault the logger told; null for none.</summary>
    public string? LastFault { get; private set; }

    /// <summary>Hellos so far.</summary>
    public int Hellos { get; private set; }

    /// <summary>Good frames so far, of any kind.</summary>
    public int GoodFrames => _decoder.GoodFrames;

    /// <summary>Bytes thrown away so far.</summary>
    public long DiscardedBytes => _decoder.DiscardedBytes;

    /// <summary>Told of each stretch without samples that the frames themselves show.</summary>
    public Action<StreamGap>? GapFound { get; set; }

    /// <summary>
    /// Set while bytes are read that may hold what never stood there, such as an old block of a disk: only frames of
    /// samples count, and of these only such as go on where the last one ended, at most so many frames later.
    /// </summary>
    public int? MostFramesAhead { get; set; }

    /// <summary>Called with each good frame that is not of samples: its kind and a copy of its body.</summary>
    public Action<byte, byte[]>? OtherFrame { get; set; }

    /// <summary>Takes bytes, and appends the samples that they complete.</summary>
    /// <exception cref="InputException">The logger speaks another protocol; both versions and the remedy are named.</exception>
    public void Read(ReadOnlySpan<byte> bytes, ICollection<LoggerSample> samples)
    {
        foreach (byte value in bytes)
        {
            if (!_decoder.Push(value))
            {
                continue;
            }

            if (_decoder.Body[0] is Kinds.Samples or Kinds.WideSamples)
            {
                ReadSamples(samples);
            }
            else if (MostFramesAhead is null)
            {
                ReadOther();
            }
        }

        Losses.DiscardedPieces = _decoder.DiscardedPieces;
    }

    /// <summary>Called when the device has started anew, before the first sample of its new clock is appended.</summary>
    public Action? Restarted { get; set; }

    /// <summary>Takes samples without a hello, whose content is known from elsewhere.</summary>
    /// <exception cref="InputException">This program does not read that protocol.</exception>
    public void Know(int protocol, uint fingerprint)
    {
        VersionCheck.Refuse(protocol, fingerprint);
        _knowsLayout = true;
    }

    /// <summary>Forgets an unfinished frame: the line was opened anew, or bytes before the next are missing.</summary>
    public void BreakLine() => _decoder.Reset();

    private void ReadSamples(ICollection<LoggerSample> samples)
    {
        if (!_knowsLayout || !_frame.TryOpen(_decoder.Body, _decoder.BodyLength) || !GoesOn())
        {
            Losses.RefusedFrames++;
            return;
        }

        CountMissing();
        while (_frame.Next())
        {
            switch (_frame.Kind)
            {
                case EntryKind.Sample:
                    samples.Add(new LoggerSample(
                        _frame.TimeMicroseconds, _frame.Counts, _supplyCounts, _deliveryCounts));
                    break;
                case EntryKind.Skip:
                    Losses.SkippedPoints += _frame.Points;
                    GapFound?.Invoke(new StreamGap(
                        CauseOf(_frame.Reason),
                        _frame.NextPointMicroseconds - ((long)_frame.Points * _frame.PeriodMicroseconds),
                        _frame.NextPointMicroseconds,
                        _frame.Points));
                    break;
                default:
                    TakeReading();
                    break;
            }
        }

        _expectedPoint = _frame.NextPointMicroseconds;
    }

    private bool GoesOn() => MostFramesAhead is not int most
        || (_expectedSequence is int sequence && _expectedPoint is long point
            && ((_frame.Sequence - sequence) & 0xFFFF) <= most && _frame.BaseMicroseconds >= point);

    private void CountMissing()
    {
        if (_frame.BaseMicroseconds < _expectedPoint)
        {
            // The device's clock never steps back while it runs; its hello was lost.
            NoticeRestart();
        }

        int missing = _expectedSequence is int sequence ? (_frame.Sequence - sequence) & 0xFFFF : 0;
        _expectedSequence = (_frame.Sequence + 1) & 0xFFFF;
        Losses.LostFrames += missing;
        if (_expectedPoint is long point && _frame.BaseMicroseconds >= point + _frame.PeriodMicroseconds)
        {
            // Without a missing frame the logger itself paused, as when it was told to start while it sampled.
            long points = (_frame.BaseMicroseconds - point) / _frame.PeriodMicroseconds;
            Losses.LostPoints += points;
            GapFound?.Invoke(new StreamGap(
                missing > 0 ? LossCause.Noise : LossCause.Silence, point, _frame.BaseMicroseconds, points));
        }
    }

    private static LossCause CauseOf(int reason) => reason switch
    {
        LossReasons.Line or LossReasons.Card => LossCause.LoggerBusy,
        LossReasons.Converter => LossCause.Converter,
        _ => LossCause.Overrun,
    };

    private void TakeReading()
    {
        if (_frame.Channel == Channels.Supply)
        {
            _supplyCounts = _frame.Counts;
        }
        else if (_frame.Channel == Channels.Delivery)
        {
            _deliveryCounts = _frame.Counts;
        }
    }

    private void ReadOther()
    {
        byte[] body = _decoder.Body[.._decoder.BodyLength];
        switch (body[0])
        {
            case Kinds.Hello:
                TakeHello(body);
                break;
            case Kinds.Answer:
                TakeAnswer(body);
                break;
            case Kinds.Health:
                Health health = new();
                Health = health.TryRead(body, body.Length) ? health : Health;
                break;
            case Kinds.Loss:
                TakeLoss(body);
                break;
            case Kinds.Fault:
                Fault fault = new();
                LastFault = fault.TryRead(body, body.Length)
                    ? System.Text.Encoding.ASCII.GetString(fault.Text, 0, fault.TextLength)
                    : LastFault;
                break;
            case > Kinds.WideSamples and < 0x30:
                Losses.UnknownFrames++;
                break;
        }

        OtherFrame?.Invoke(body[0], body);
    }

    private void TakeHello(byte[] body)
    {
        Hello hello = new();
        if (!hello.TryRead(body, body.Length))
        {
            return;
        }

        VersionCheck.Refuse(hello.Protocol, hello.Fingerprint);
        if (hello.Mode == Modes.Idle && _expectedPoint is not null)
        {
            // In the middle of a stream that nobody stopped, "idle" comes from a device that has just started.
            NoticeRestart();
        }

        Hello = hello;
        Hellos++;
        _knowsLayout = true;
    }

    private void TakeAnswer(byte[] body)
    {
        Answer answer = new();
        if (answer.TryRead(body, body.Length) && answer.Command == Kinds.Stop && answer.Result == Results.Done)
        {
            _expectedPoint = null;
        }
    }

    // Frames that the logger itself dropped are missing in the numbering as well; its own word says why.
    private void TakeLoss(byte[] body)
    {
        Loss loss = new();
        if (loss.TryRead(body, body.Length))
        {
            Losses.FramesLoggerDropped += loss.Frames;
        }
    }

    private void NoticeRestart()
    {
        Losses.Restarts++;
        Restarted?.Invoke();
        _expectedSequence = null;
        _expectedPoint = null;
    }
}

/// <summary>A stretch without samples that the frames themselves show.</summary>
/// <param name="Cause">Why.</param>
/// <param name="FromMicroseconds">First grid point without a sample [µs of device time].</param>
/// <param name="ToMicroseconds">Next grid point with one [µs of device time].</param>
/// <param name="Points">Grid points without a sample.</param>
public readonly record struct StreamGap(LossCause Cause, long FromMicroseconds, long ToMicroseconds, long Points);
