using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Truth;
using Figure = Clackbeat.Signal.Analysis.Figure;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>The flow from one pressure, beside virtual rams whose flows are known to their own solver.</summary>
public class VirtualRamFlowTests
{
    [Theory]
    [InlineData("steel", RamCharacter.Smooth, 1000)]
    [InlineData("steel", RamCharacter.Lively, 1000)]
    [InlineData("pvc", RamCharacter.Smooth, 500)]
    [InlineData("pvc", RamCharacter.Lively, 1000)]
    [InlineData("polyethylene", RamCharacter.Smooth, 1000)]
    [InlineData("polyethylene", RamCharacter.Lively, 2000)]
    public void The_stated_uncertainty_holds_the_true_flows(string name, RamCharacter character, double rateHz)
    {
        RamSite site = name switch { "steel" => Rams.Steel, "pvc" => Rams.Pvc, _ => Rams.Polyethylene };
        var (times, pressures, truth) = Rams.Record(site, 30, rateHz, character: character);
        FlowResult result = FlowBench.Measure(site, times, pressures);
        (double delivered, double waste) = Flows(truth);

        Holds(result.Flow.DeliveredM3PerS, delivered);
        Holds(result.Flow.WasteM3PerS, waste);
        Holds(result.Efficiency.DAubuisson, delivered * site.Delivery.HeadM / ((delivered + waste) * site.Supply.HeadM));
    }

    [Theory]
    [InlineData(6000)]
    [InlineData(20_000)]
    [InlineData(-20_000)]
    public void A_zero_error_of_the_sensor_leaves_the_flows_alone_and_is_reported(double offsetPa)
    {
        var (times, pressures, _) = Rams.Record(Rams.Steel, 30);
        FlowResult without = FlowBench.Measure(Rams.Steel, times, pressures);
        FlowResult with = FlowBench.Measure(Rams.Steel, times, [.. pressures.Select(p => p + offsetPa)]);

        Assert.InRange(with.Flow.DeliveredM3PerS!.Value.Value / without.Flow.DeliveredM3PerS!.Value.Value, 0.99, 1.01);
        Assert.InRange(with.Flow.WasteM3PerS!.Value.Value / without.Flow.WasteM3PerS!.Value.Value, 0.99, 1.01);
        Assert.Equal(offsetPa, with.DrivePipe.SensorBiasPa!.Value - without.DrivePipe.SensorBiasPa!.Value, 1000.0);
    }

    [Fact]
    public void Volumes_of_the_beats_add_up_to_the_flows_and_the_energy_to_what_was_drawn()
    {
        var (times, pressures, _) = Rams.Record(Rams.Pvc, 30);
        var beats = new List<Beat>();
        FlowResult result = FlowBench.Measure(Rams.Pvc, times, pressures, beats);

        double seconds = beats.Where(b => result.Beats.ContainsKey(b.Index)).Sum(b => b.IntervalS);
        Assert.Equal(result.Flow.DeliveredM3PerS!.Value.Value, result.Beats.Values.Sum(b => b.DeliveredM3) / seconds, 1e-9);
        EnergySplit energy = result.Energy!;
        Assert.Equal(
            energy.DrawnJ,
            energy.DeliveredJ + energy.DeliveryLossJ + energy.WasteValveJ + energy.FrictionJ + energy.RestJ, 1e-6);
    }

    [Fact]
    public void A_pipe_period_sampled_too_coarsely_withholds_the_flow_and_says_why()
    {
        var (times, pressures, _) = Rams.Record(Rams.Steel, 20, rateHz: 100);
        FlowResult result = FlowBench.Measure(Rams.Steel, times, pressures);

        Assert.Null(result.Flow.DeliveredM3PerS);
        Assert.Null(result.Efficiency.DAubuisson);
        Assert.Contains(result.Limits, l => l.Contains("withheld", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.8)]
    public void A_sunken_supply_is_told_by_the_record_itself(double severity)
    {
        RamSite site = Rams.Steel;
        RamDesign design = RamDesigner.Design(site, RamCharacter.Smooth);
        var ram = new RamSimulation(
            design.Ram, design.Sensor with { RateHz = 1000 },
            new SimulationOptions { Fault = new Fault { Condition = RamCondition.SupplyStarved, Severity = severity }, Seed = 2 });
        var truth = new List<VirtualBeat>();
        ram.BeatEnded += truth.Add;
        var samples = ram.Samples(40).ToList();
        double head = ram.Engine.Parameters.Supply.HeadM;

        FlowResult result = FlowBench.Measure(site, [.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        (double delivered, double waste) = Flows(truth);

        Assert.True(head < 0.95 * site.Supply.HeadM, "the fault lowers the supply");
        Assert.Contains(result.Limits, l => l.Contains("supply level", StringComparison.Ordinal));
        Assert.Equal(head, result.Signs!.SupplyHeadM, 0.05);
        Holds(result.Flow.DeliveredM3PerS, delivered);
        Holds(result.Flow.WasteM3PerS, waste);
        Holds(result.Efficiency.DAubuisson, delivered * site.Delivery.HeadM / ((delivered + waste) * head));
    }

    [Fact]
    public void An_analysis_in_small_chunks_gives_the_same_flows()
    {
        var (times, pressures, _) = Rams.Record(Rams.Pvc, 20);
        RamAnalysis whole = Rams.Analyse(Rams.Pvc, times, pressures);
        var analyser = new RamAnalyser(Rams.Pvc);
        for (int i = 0; i < times.Length; i += 37)
        {
            int count = Math.Min(37, times.Length - i);
            analyser.Add(times.AsSpan(i, count), pressures.AsSpan(i, count));
        }

        RamAnalysis chunked = analyser.Finish("in chunks");

        Assert.Equal(whole.Flow, chunked.Flow);
        Assert.Equal(whole.Efficiency, chunked.Efficiency);
        Assert.Equal(whole.BeatList.Select(b => b.Flow), chunked.BeatList.Select(b => b.Flow));
    }

    [Fact]
    public void Without_beats_nothing_is_claimed()
    {
        FlowResult result = new FlowEstimator(Rams.Steel).Finish();

        Assert.Null(result.Flow.DeliveredM3PerS);
        Assert.Single(result.Limits);
    }

    [Fact]
    public void Monte_Carlo_trials_stay_within_the_stated_uncertainty()
    {
        // JCGM 101: inputs drawn from their distributions, the whole estimate done again each time. The stated figure also
        // holds the model's own error, which trials on one ram can't show, so it may exceed their scatter, never fall short.
        RamSite site = Rams.Steel;
        var (times, pressures, _) = Rams.Record(site, 15);
        double stated = FlowBench.Measure(site, times, pressures).Flow.DeliveredM3PerS!.Value.U;
        var random = new Random(11);
        var flows = new List<double>();
        for (int trial = 0; trial < 20; trial++)
        {
            DrivePipe pipe = site.DrivePipe;
            RamSite drawn = site with
            {
                Supply = site.Supply with { HeadM = site.Supply.HeadM + (0.0125 * Normal(random)) },
                DrivePipe = pipe with
                {
                    LengthM = pipe.LengthM * (1 + (0.005 * Normal(random))),
                    BoreM = pipe.BoreM * (1 + (0.005 * Normal(random))),
                },
            };
            double gain = 1 + (0.005 * Normal(random));
            double[] seen = [.. pressures.Select(p => (p * gain) + (250 * Normal(random)))];
            flows.Add(FlowBench.Measure(drawn, times, seen).Flow.DeliveredM3PerS!.Value.Value);
        }

        double mean = flows.Average();
        double spread = Math.Sqrt(flows.Sum(q => (q - mean) * (q - mean)) / (flows.Count - 1));
        Assert.InRange(2 * spread, 0, stated);
    }

    private static void Holds(Figure? figure, double truth)
    {
        Assert.NotNull(figure);
        Assert.InRange(truth, figure.Value.Value - figure.Value.U, figure.Value.Value + figure.Value.U);
    }

    private static (double DeliveredM3PerS, double WasteM3PerS) Flows(List<VirtualBeat> truth)
    {
        double seconds = truth.Sum(b => b.IntervalS);
        return (truth.Sum(b => b.DeliveredM3) / seconds, truth.Sum(b => b.WasteM3) / seconds);
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
