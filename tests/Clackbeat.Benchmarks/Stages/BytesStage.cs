using BenchmarkDotNet.Attributes;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Samples;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site.Physics;

namespace Clackbeat.Benchmarks.Stages;

/// <summary>From the line's bytes to pressures: about a minute at 1000 samples a second on each turn.</summary>
[MemoryDiagnoser]
public class BytesStage
{
    private const int Samples = 60_000;

    private readonly FrameDecoder _decoder = new();
    private readonly SampleFrameReader _reader = new();
    private readonly int[] _counts = new int[Samples];
    private readonly SensorConversion _conversion = SiteSensing.ConversionOf(Bench.Site);
    private byte[] _stream = [];

    [GlobalSetup]
    public void Write()
    {
        var random = new Random(3);
        var stream = new MemoryStream();
        var writer = new SampleFrameWriter(isWide: false);
        for (int i = 0, frame = 0; i < Samples; frame++)
        {
            long baseMicroseconds = i * 1000L;
            writer.Open(frame & 0xFFFF);
            while (i < Samples && !writer.IsFull)
            {
                _counts[i] = random.Next(400, 3600);
                writer.AddSample(_counts[i++], random.Next(-20, 20));
            }

            writer.BeginClose(baseMicroseconds, 1000);
            while (!writer.CloseStep())
            {
            }

            stream.Write(writer.Buffer, 0, writer.Length);
        }

        _stream = stream.ToArray();
        Console.WriteLine($"// {_stream.Length} bytes a turn");
    }

    [Benchmark(Description = "frames from bytes (CRC checked)")]
    public int Frames()
    {
        int good = 0;
        foreach (byte value in _stream)
        {
            good += _decoder.Push(value) ? 1 : 0;
        }

        return good;
    }

    [Benchmark(Description = "samples from bytes")]
    public long Entries()
    {
        long sum = 0;
        foreach (byte value in _stream)
        {
            if (_decoder.Push(value) && _reader.TryOpen(_decoder.Body, _decoder.BodyLength))
            {
                while (_reader.Next())
                {
                    sum += _reader.Counts;
                }
            }
        }

        return sum;
    }

    [Benchmark(Description = "pressures from counts")]
    public double Calibrated()
    {
        double sum = 0;
        foreach (int counts in _counts)
        {
            sum += _conversion.PressurePaAt(counts, 2306);
        }

        return sum;
    }
}
