using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.Protocol.Samples;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;

namespace Clackbeat.Recording.Tests.Files;

/// <summary>
/// Minutes of a logger as the recorder's own book takes them, with restarts, cuts, marks and stretches in which the disk is
/// slow; every sample, text and loss that was acknowledged is known for each moment.
/// </summary>
internal sealed class ScriptedRecording
{
    private const int PeriodMicroseconds = 2500;
    private const int FrameSamples = 20;
    private const double ChunkS = 0.1;

    private readonly ManualTime _time = new();
    private readonly CaptureBook _book;
    private readonly Random _random = new(20261126);
    private readonly SampleFrameWriter _frame = new(isWide: false);
    private readonly FrameWriter _plain = new();
    private readonly List<long> _durableSamples = [0];
    private readonly List<int> _durableTexts = [0];
    private int _texts;
    private (long Samples, int Texts) _flushed;
    private int _run;
    private int _sequence;
    private long _device;

    /// <summary>Records.</summary>
    /// <param name="minutes">How long.</param>
    public ScriptedRecording(double minutes)
    {
        Disk.Called = NoteCall;
        using RecordingWriter writer = new(Disk, _time);
        _book = new CaptureBook(writer, HelloOf(Modes.Streaming));
        Begin();
        int chunks = (int)(minutes * 60 / ChunkS);
        for (int i = 1; i <= chunks; i++)
        {
            bool isSlow = i % 45 > 30;
            Chunk(isSlow);
            if (i % 110 == 0)
            {
                Restart();
            }

            if (i % 70 == 0 || (isSlow && i % 4 == 0))
            {
                _texts++;
                _book.Add(new RecordingDocument(DocumentRole.Mark, "", $"mark {_texts} " + new string('x', _random.Next(900))));
            }

            if (i % 80 == 0)
            {
                _book.Break(LossCause.LinkCut, "the link was lost");
                Pass(1.5);
            }
        }

        _book.End(EndReason.Asked);
        Assert.Equal(Samples.Count, _book.Samples);
    }

    public LoggedDisk Disk { get; } = new();

    /// <summary>Samples in order: device time, which tells the run as well, and counts.</summary>
    public List<(long Device, int Counts)> Samples { get; } = [];

    /// <summary>Samples of <see cref="FirstFrames"/>.</summary>
    public const int FirstSamples = FrameSamples;

    /// <summary>Bytes of its first samples, as another recording may hold them.</summary>
    public byte[] FirstFrames { get; private set; } = [];

    /// <summary>Samples acknowledged after so many calls of the disk.</summary>
    public long DurableSamples(int moment) => _durableSamples[moment];

    /// <summary>Marks acknowledged.</summary>
    public int DurableTexts(int moment) => _durableTexts[moment];

    /// <summary>Counts of a sample: what no other sample near it has.</summary>
    public static int CountsAt(long device) => (int)(((ulong)device * 0x9E3779B97F4A7C15UL) >> 52);

    public static SessionHeader Header() => SessionHeader.Of(HelloOf(Modes.Streaming), SessionSource.Line, "test", "test");

    // The book flushes only after it has taken all that it was given.
    private void NoteCall()
    {
        bool isFlush = Disk.Unflushed(Disk.Moments - 1).Count == 0;
        _flushed = isFlush ? (Samples.Count, _texts) : _flushed;
        _durableTexts.Add(_flushed.Texts);
        _durableSamples.Add(_flushed.Samples);
    }

    private void Begin()
    {
        Take(Bytes(HelloOf(Modes.Streaming)));
        _book.Begin(Header(), [new RecordingDocument(DocumentRole.Site, "ram.toml", new string('#', 3000))]);
    }

    private void Chunk(bool isSlow)
    {
        List<byte> bytes = [];
        for (int frames = 0; frames < ChunkS * 1e6 / PeriodMicroseconds / FrameSamples; frames++)
        {
            bytes.AddRange(Frame());
        }

        // On a slow disk the recorder gets no turn to flush for seconds; what it takes then comes in one go.
        Take([.. bytes], tick: !isSlow);
        Pass(ChunkS);
    }

    private byte[] Frame()
    {
        _frame.Open(_sequence++ & 0xFFFF);
        long from = _device;
        for (int i = 0; i < FrameSamples; i++)
        {
            Samples.Add((_device, CountsAt(_device)));
            _frame.AddSample(CountsAt(_device), 0);
            _device += PeriodMicroseconds;
        }

        _frame.BeginClose(from, PeriodMicroseconds);
        while (!_frame.CloseStep())
        {
        }

        byte[] bytes = _frame.Buffer[.._frame.Length];
        FirstFrames = FirstFrames.Length == 0 ? bytes : FirstFrames;
        return bytes;
    }

    // A run's times have the run's number as their odd microseconds.
    private void Restart()
    {
        _run++;
        (_device, _sequence) = (_run, 0);
        Take([.. Bytes(HelloOf(Modes.Idle)), .. Bytes(HelloOf(Modes.Streaming))]);
    }

    private void Take(byte[] bytes, bool tick = true)
    {
        _book.Take(new LineChunk(bytes, _time.GetTimestamp()));
        if (tick)
        {
            _book.Tick();
        }
    }

    private void Pass(double seconds) => _time.Pass(TimeSpan.FromSeconds(seconds));

    private byte[] Bytes(Message message)
    {
        message.Write(_plain);
        return _plain.Buffer[.._plain.Length];
    }

    private static Hello HelloOf(int mode)
    {
        Hello hello = new()
        {
            Protocol = ProtocolVersion.Number,
            Fingerprint = ProtocolVersion.Fingerprint,
            ConverterMax = 4095,
            ChannelMask = 1,
            PeriodMicroseconds = PeriodMicroseconds,
            Mode = mode,
        };
        "virtual1"u8.CopyTo(hello.Device);
        return hello;
    }
}
