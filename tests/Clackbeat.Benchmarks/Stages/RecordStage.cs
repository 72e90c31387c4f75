using BenchmarkDotNet.Attributes;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Flow;

namespace Clackbeat.Benchmarks.Stages;

/// <summary>What is worked out once a record: a minute at 1000 samples a second.</summary>
[MemoryDiagnoser]
public class RecordStage
{
    private double[] _timesS = [];
    private double[] _pressuresPa = [];

    [GlobalSetup]
    public void Simulate() => (_timesS, _pressuresPa) = Bench.Trace(60);

    [Benchmark(Description = "beats, then flow from the drive pipe (inversion, fit, uncertainty)")]
    public FlowResult Flow()
    {
        var estimator = new FlowEstimator(Bench.Site);
        var detector = new BeatDetector(Bench.Scale, estimator.OnBeat);
        detector.Add(_timesS, _pressuresPa);
        detector.Finish();
        return estimator.Finish();
    }

    [Benchmark(Description = "all but the flow: beats, pressures, pipe, diagnosis")]
    public RamAnalysis WithoutFlow() => Analysed(measuresFlow: false);

    [Benchmark(Description = "the whole analysis")]
    public RamAnalysis Whole() => Analysed(measuresFlow: true);

    private RamAnalysis Analysed(bool measuresFlow)
    {
        var analyser = new RamAnalyser(Bench.Site, measuresFlow: measuresFlow);
        analyser.Add(_timesS, _pressuresPa);
        return analyser.Finish("a minute");
    }
}
