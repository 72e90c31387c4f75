using System.Text.Json.Nodes;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>How samples come out.</summary>
public class StreamTests
{
    [Fact]
    public void The_same_seed_gives_the_same_samples_and_another_seed_others()
    {
        RamDesign design = TestRams.Lively(TestRams.Pvc);
        int[] Counts(int seed) =>
            [.. new RamSimulation(design.Ram, design.Sensor, new SimulationOptions { Seed = seed }).Samples(3).Select(s => s.Counts)];
        Assert.Equal(Counts(5), Counts(5));
        Assert.NotEqual(Counts(5), Counts(6));
    }

    [Fact]
    public void The_ram_runs_no_further_than_the_sample_asked_for()
    {
        RamDesign design = TestRams.Smooth(TestRams.Steel);
        var simulation = new RamSimulation(design.Ram, design.Sensor);
        for (int i = 0; i < 100; i++)
        {
            VirtualSample sample = simulation.Next();
            Assert.Equal(i / design.Sensor.RateHz, sample.TimeS, 12);
            Assert.InRange(simulation.Engine.TimeS, sample.TimeS, sample.TimeS + 1.01 * simulation.Engine.StepS);
        }
    }

    [Fact]
    public void Jitter_moves_the_instants_but_never_backwards()
    {
        RamDesign design = TestRams.Smooth(TestRams.Steel);
        SensorParameters sensor = design.Sensor with { JitterS = 3e-4 };
        double[] times = new RamSimulation(design.Ram, sensor).Samples(5).Select(s => s.TimeS).ToArray();
        Assert.Equal(5000, times.Length);
        Assert.All(times.Zip(times.Skip(1)), pair => Assert.True(pair.Second >= pair.First));
        double[]? off = times.Select((t, i) => t - i / sensor.RateHz).ToArray();
        Assert.Equal(3e-4, Math.Sqrt(off.Average(x => x * x)), 0.3e-4);
    }

    [Fact]
    public void From_rest_the_keeper_starts_it_and_then_it_beats_by_itself()
    {
        RamDesign design = TestRams.Smooth(TestRams.Steel);
        var simulation = new RamSimulation(design.Ram, design.Sensor, new SimulationOptions { FromRest = true });
        var beats = new List<VirtualBeat>();
        simulation.BeatEnded += beats.Add;
        double pushedLast = 0.0;
        simulation.Stepped += e => pushedLast = e.Pushed ? e.TimeS : pushedLast;
        VirtualSample first = simulation.Next();
        Assert.Equal(2.2 * 9.80, first.TruePressurePa / 1000, 0.1);
        foreach (VirtualSample sample in simulation.Samples(30))
        {
            Assert.True(sample.TimeS < 30);
        }

        Assert.InRange(pushedLast, 0.3, 10);
        Assert.True(beats.Count > 10);
    }

    [Fact]
    public void Whole_beats_follow_each_other_without_gap_or_overlap()
    {
        List<VirtualBeat> beats = TestRams.RunFor(TestRams.Lively(TestRams.Pvc), 20).Beats;
        Assert.All(beats.Zip(beats.Skip(1)), pair =>
            Assert.Equal(pair.First.ClosureS + pair.First.IntervalS, pair.Second.ClosureS, 9));
    }

    [Fact]
    public void The_truth_as_JSON_holds_every_beat_and_the_real_supply_head()
    {
        RamDesign design = TestRams.Smooth(TestRams.Steel);
        var options = new SimulationOptions { Fault = new Fault { Condition = RamCondition.SupplyStarved, Severity = 0.5 } };
        var simulation = new RamSimulation(design.Ram, design.Sensor, options);
        var beats = new List<VirtualBeat>();
        simulation.BeatEnded += beats.Add;
        foreach (VirtualSample sample in simulation.Samples(10))
        {
            Assert.True(sample.TimeS < 10);
        }

        JsonObject json = TruthJson.Of(simulation, options, beats);
        Assert.Equal("supply-starved", (string?)json["condition"]);
        Assert.Equal(0.8 * 2.2, (double)json["supply_head_m"]!, 9);
        Assert.Equal(beats.Count, json["beats"]!.AsArray().Count);
        Assert.Equal(beats.Count, (int)json["totals"]!["beats"]!);
    }
}
