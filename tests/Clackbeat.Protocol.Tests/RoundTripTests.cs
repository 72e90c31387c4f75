using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Samples;

namespace Clackbeat.Protocol.Tests;

/// <summary>Ten million random samples, with jitter, gaps and a second channel, come back exactly.</summary>
public class RoundTripTests
{
    private const int Samples = 10_000_000;
    private const int Period = 1000;

    private readonly FrameDecoder _decoder = new();
    private readonly SampleFrameReader _reader = new();
    private readonly SampleFrameWriter _writer = new(isWide: false);
    private readonly List<(EntryKind Kind, long Time, int Value)> _sent = [];
    private int _sequence;
    private long _base = 1_000_000;
    private long _point = 1_000_000;

    [Fact]
    public void TenMillionSamplesComeBackExactly()
    {
        Random random = new(4);
        TimeSpan before = Environment.CpuUsage.TotalTime;
        _writer.Open(0);
        for (int i = 0; i < Samples; i++)
        {
            AddPoint(random);
            if (_writer.IsFull)
            {
                SendAndCompare();
            }
        }

        SendAndCompare();

        // Processor time, not the wall's: other programs on a machine say nothing about this one.
        TimeSpan took = Environment.CpuUsage.TotalTime - before;
        Assert.True(took < TimeSpan.FromSeconds(20), $"took {took}");
    }

    private void AddPoint(Random random)
    {
        int counts = random.Next(4096);
        int what = random.Next(100);
        int deviation = what == 0 ? random.Next(-EntryTags.FarSpan, EntryTags.FarSpan) : random.Next(-256, 256);
        if (what == 0)
        {
            _writer.AddLate(counts, deviation);
        }
        else
        {
            _writer.AddSample(counts, deviation);
        }

        long time = _point + deviation;
        _sent.Add((EntryKind.Sample, time, counts));
        _point += Period;
        if (what == 1)
        {
            int points = random.Next(1, EntryTags.MaxSkip + 1);
            _writer.AddSkip(points, LossReasons.Overrun);
            _sent.Add((EntryKind.Skip, time, points));
            _point += (long)points * Period;
        }
        else if (what < 10)
        {
            int supply = random.Next(4096);
            _writer.AddReading(Channels.Supply, supply);
            _sent.Add((EntryKind.Reading, time, supply));
        }
    }

    private void SendAndCompare()
    {
        _writer.BeginClose(_base, Period);
        while (!_writer.CloseStep())
        {
        }

        bool whole = false;
        for (int i = 0; i < _writer.Length; i++)
        {
            whole |= _decoder.Push(_writer.Buffer[i]);
        }

        Assert.True(whole && _reader.TryOpen(_decoder.Body, _decoder.BodyLength));
        foreach ((EntryKind Kind, long Time, int Value) sent in _sent)
        {
            bool same = _reader.Next() && _reader.Kind == sent.Kind && _reader.TimeMicroseconds == sent.Time
                && (sent.Kind == EntryKind.Skip ? _reader.Points : _reader.Counts) == sent.Value;
            if (!same)
            {
                Assert.Fail($"frame {_sequence} differs");
            }
        }

        Assert.False(_reader.Next());
        Assert.Equal(_sequence & 0xFFFF, _reader.Sequence);
        Assert.Equal(_point, _reader.NextPointMicroseconds);
        _sent.Clear();
        _sequence++;
        _base = _point;
        _writer.Open(_sequence);
    }
}
