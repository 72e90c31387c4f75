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
    // Kind, number, period, base, CRC, stuffing and delimiters (protocol SPEC §1 and §6) [bytes].
    private const int ShortestFrame = 22;

    private readonly FrameReader _reader = new();
    private readonly List<LoggerSample> _samples = [];
    private readonly Action<int, List<LoggerSample>, long> _take;
    private Action<int>? _saved;
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

    /// <summary>Told of what the logger measured of its own board.</summary>
    public Action<Bench>? Bench { get; set; }

    /// <summary>Told of the battery as the logger reports it [counts].</summary>
    public Action<int>? Battery { get; set; }

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

    /// <summary>
    /// Takes a frames block whose payload is not what was written, and saves the samples of the frames in it that are
    /// good by their own CRC and go on where the last good one ended.
    /// </summary>
    /// <returns>How many samples.</returns>
    public int ReadSpoilt(ReadOnlySpan<byte> bytes)
    {
        int saved = 0;
        _saved = count => saved += count;
        _reader.MostFramesAhead = bytes.Length / ShortestFrame;
        if (FrameChunks.Fill(bytes))
        {
            Read(bytes);
        }
        else
        {
            // The chunks' own heads are hit: between them whole frames still stand.
            _arrived = LossRecord.Unknown;
            _reader.Read(bytes, _samples);
            HandOver();
        }

        _reader.MostFramesAhead = null;
        _saved = null;
        return saved;
    }

    private void TakeOther(byte kind, byte[] body)
    {
        Bench bench = new();
        if (kind == Kinds.Bench && bench.TryRead(body, body.Length))
        {
            Bench?.Invoke(bench);
            return;
        }

        Health health = new();
        if (kind == Kinds.Health && health.TryRead(body, body.Length))
        {
            if (health.BatteryCounts != ProtocolVersion.NotGiven16)
            {
                Battery?.Invoke(health.BatteryCounts);
            }

            return;
        }

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
            _saved?.Invoke(_samples.Count);
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
