using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>The measured wave speed beside the one the virtual ram's own pipe was given; 5 % is what the method promises.</summary>
public class WaveSpeedTests
{
    [Theory]
    [InlineData("steel")]
    [InlineData("pvc")]
    [InlineData("polyethylene")]
    public void A_full_pipe_shows_the_wave_speed_of_its_wall(string name)
    {
        (FlowResult result, double truth) = Measure(Named(name), slowness: 1);

        Assert.InRange(result.DrivePipe.WaveSpeedMPerS!.Value.Value / truth, 0.95, 1.05);
        Assert.DoesNotContain(result.Findings, f => f.Code == "wave-speed-low");
    }

    [Theory]
    [InlineData("steel")]
    [InlineData("pvc")]
    [InlineData("polyethylene")]
    public void A_slower_wave_than_the_site_file_lets_expect_is_measured(string name)
    {
        (FlowResult result, double truth) = Measure(
            Named(name), slowness: 0.8);

        Assert.True(truth < 0.9 * result.ExpectedWaveSpeedMPerS, "the wave is slower than expected");
        Assert.InRange(result.DrivePipe.WaveSpeedMPerS!.Value.Value / truth, 0.95, 1.05);
    }

    [Theory]
    [InlineData("steel")]
    [InlineData("pvc")]
    [InlineData("polyethylene")]
    public void A_slower_wave_is_measured_through_ten_times_the_usual_noise(string name)
    {
        (FlowResult result, double truth) = Measure(
            Named(name), slowness: 0.8, noisePa: 2500);

        Assert.InRange(result.DrivePipe.WaveSpeedMPerS!.Value.Value / truth, 0.95, 1.05);
    }

    [Fact]
    public void A_site_file_that_is_ten_per_cent_off_is_put_right_by_the_record()
    {
        RamSite site = Rams.Pvc;
        double own = SiteHydraulics.Of(site).WaveSpeedMPerS;
        (double[] times, double[] pressures, List<VirtualRam.Truth.VirtualBeat> _) = Rams.Record(site, 30);
        RamSite wrong = site with { DrivePipe = site.DrivePipe with { WaveSpeedMPerS = 1.1 * own } };

        double found = FlowBench.Measure(wrong, times, pressures).DrivePipe.WaveSpeedMPerS!.Value.Value;

        Assert.InRange(found / own, 0.95, 1.05);
    }

    private static RamSite Named(string name) => name switch { "steel" => Rams.Steel, "pvc" => Rams.Pvc, _ => Rams.Polyethylene };

    private static (FlowResult Result, double Truth) Measure(RamSite site, double slowness, double? noisePa = null)
    {
        RamDesign design = RamDesigner.Design(site, RamCharacter.Smooth, PipeDetail.Elastic);
        PipeParameters pipe = design.Ram.DrivePipe;
        var ram = new RamSimulation(
            design.Ram with { DrivePipe = pipe with { WaveSpeedMPerS = slowness * pipe.WaveSpeedMPerS } }, design.Sensor with { RateHz = 1000, NoisePa = noisePa ?? design.Sensor.NoisePa }, new SimulationOptions { Seed = 3 });
        var samples = ram.Samples(40).ToList();
        FlowResult result = FlowBench.Measure(
            site, [.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        return (result, ram.Engine.Parameters.DrivePipe.WaveSpeedMPerS);
    }
}
