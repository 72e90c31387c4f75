using BenchmarkDotNet.Attributes;
using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Records.Samples;
using Clackbeat.Signal.Beats;

namespace Clackbeat.Benchmarks.Stages;

/// <summary>What every sample of a record passes: ten minutes at 1000 samples a second on each turn.</summary>
[MemoryDiagnoser]
public class TraceStage
{
    private double[] _timesS = [];
    private double[] _pressuresPa = [];

    [GlobalSetup]
    public void Simulate() => (_timesS, _pressuresPa) = Bench.Trace(600);

    [Benchmark(Description = "one rising time axis")]
    public double Conditioned()
    {
        double sum = 0;
        var conditioner = new TraceConditioner((_, pressurePa) => sum += pressurePa);
        for (int i = 0; i < _timesS.Length; i++)
        {
            conditioner.Add(_timesS[i], _pressuresPa[i]);
        }

        conditioner.Finish();
        return sum;
    }

    [Benchmark(Description = "beats found and measured")]
    public int Beats()
    {
        int beats = 0;
        var detector = new BeatDetector(Bench.Scale, _ => beats++);
        detector.Add(_timesS, _pressuresPa);
        detector.Finish();
        return beats;
    }

    [Benchmark(Description = "rainflow count")]
    public double Rainflow() => RainflowHistogram.Of(_pressuresPa, -100e3, 1e6).TotalCount;
}
