using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;

namespace Clackbeat.Recording.Reading;

/// <summary>
/// Takes the frames blocks of one session apart, the same way in each pass over a file: chunks, frames, samples, and the
/// places at which the device's clock began anew.
/// </summary>
internal sealed class SessionDecoder
{
    private readonly FrameReader _reader = new();
    private readonly List<LoggerSample> _samples = [];
    private readonly Action<int, List<LoggerSample>, long> _take;
    private int _segment;
    private bool _any;
    private long _arrived = LossRecord.Unknown;

    /// <summary>Makes a decoder.</summary>
    /// <param name="header">What opened the session; null when that is lost.</param>
    /// <param name="take">Takes the number of the run of the clock, its samples, and when they arrived [µs]; −1 unknown.</param>
    public SessionDecoder(SessionHeader? header, Action<int, List<LoggerSample>, long> take)
    {
        _take = take;
        _reader.Restarted = BeginSegment;
        _reader.OtherFrame = TakeOther;
        if (header is not null)
        {
            _reader.Know(header.Protocol, header.Fingerprint);
        }
    }

    /// <summary>What the frames show to be missing.</summary>
    public LossAccount Account => _reader.Losses;

    /// <summary>Told of each calendar that the logger ties to its own time.</summary>
    public Action<LoggerCalendar>? TimeMark { get; set; }

    /// <summary>Blocks are missing before the next.</summary>
    public void Break() => _reader.BreakLine();

    /// <summary>Takes a frames block.</summary>
    public void Read(ReadOnlySpan<byte> bytes)
    {
        FrameChunks chunks = new(bytes);
        while (chunks.Next())
        {
            _arrived = chunks.Arrived;
            _reader.Read(chunks.Bytes, _samples);
            HandOver();
        }
    }

    private void TakeOther(byte kind, byte[] body)
    {
        TimeMark mark = new();
        if (kind == Kinds.TimeMark && mark.TryRead(body, body.Length) && mark.CalendarMilliseconds > 0)
        {
            TimeMark?.Invoke(new LoggerCalendar(
                mark.TimeMicroseconds, mark.CalendarMilliseconds * 1000, mark.UncertaintyMilliseconds * 1000L));
        }
    }

    private void HandOver()
    {
        if (_samples.Count > 0)
        {
            _any = true;
            _take(_segment, _samples, _arrived);
            _samples.Clear();
        }
    }

    private void BeginSegment()
    {
        HandOver();
        if (_any)
        {
            _segment++;
            _any = false;
        }
    }
}
