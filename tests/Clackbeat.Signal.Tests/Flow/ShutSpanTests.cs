using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Field;
using Clackbeat.VirtualRam.Truth;
using Figure = Clackbeat.Signal.Figures.Figure;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>The time in which both valves are shut, beside the virtual ram's own valves.</summary>
public class ShutSpanTests
{
    // The first step of a wave takes more than half of the closing velocity: after one pipe period the delivery is over.
    private static readonly RamSite OneStep = Rams.Site(PipeMaterial.Pe100, 22, 0.0408, 0.0046, 2.4, 15);

    [Fact]
    public void It_is_when_the_virtual_ram_has_both_valves_shut()
    {
        (List<FlowWindow> windows, List<(double TimeS, bool Shut)> valves, _, double periodS) = Run(OneStep);
        var spans = windows.Select(w => w.Shut).OfType<ShutSpan>().ToList();

        Assert.True(spans.Count > windows.Count / 2, $"{spans.Count} of {windows.Count}");
        foreach (ShutSpan span in spans)
        {
            (double TimeS, bool Shut)[] inside = [.. valves.Where(v => v.TimeS > span.FromS + 0.01 && v.TimeS < span.ToS - 0.01)];
            Assert.True(inside.Count(v => v.Shut) > 0.9 * inside.Length, $"from {span.FromS:F3} to {span.ToS:F3} s");

            // The wave that ended the delivery runs to the intake and back before anything changes.
            Assert.InRange((span.ToS - span.FromS) / periodS, 0.6, 1.3);
        }
    }

    [Fact]
    public void Flows_of_such_a_ram_hold()
    {
        (_, _, List<VirtualBeat> truth, _) = Run(OneStep);
        (double[] times, double[] pressures) = Samples(OneStep);
        FlowResult result = FlowBench.Measure(OneStep, times, pressures);
        double seconds = truth.Sum(b => b.IntervalS);

        Holds(result.Flow.DeliveredM3PerS, truth.Sum(b => b.DeliveredM3) / seconds);
        Holds(result.Flow.WasteM3PerS, truth.Sum(b => b.WasteM3) / seconds);
        Assert.InRange(result.Flow.DeliveredM3PerS!.Value.Value / (truth.Sum(b => b.DeliveredM3) / seconds), 0.92, 1.08);
    }

    [Fact]
    public void A_body_that_falls_at_once_has_none()
    {
        (List<FlowWindow> windows, _, _, _) = Run(Rams.Steel);

        Assert.All(windows, w => Assert.Null(w.Shut));
    }

    [Fact]
    public void A_second_knock_does_not_pass_for_a_longer_pipe()
    {
        // A lively ram whose delivery valve shuts late: its knock comes 10 ms after the echo from the intake, and repeats as an echo would.
        FieldRam ram = FieldRam.Make(FieldSet.Choosing, 5)!;
        var simulation = new RamSimulation(ram.Ram, ram.Sensor, new SimulationOptions { Seed = 15 });
        var samples = simulation.Samples(20).ToList();
        FlowResult result = FlowBench.Measure(ram.Site, [.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);

        Assert.Equal(ram.Ram.DrivePipe.WaveSpeedMPerS, 2 * ram.Site.DrivePipe.LengthM / result.DrivePipe.PipePeriodS!.Value, 0.08 * ram.Ram.DrivePipe.WaveSpeedMPerS);
    }

    private static (List<FlowWindow> Windows, List<(double TimeS, bool Shut)> Valves, List<VirtualBeat> Truth, double PeriodS) Run(RamSite site)
    {
        VirtualRam.Design.RamDesign design = Design(site);
        RamSimulation ram = Simulation(design);
        var valves = new List<(double TimeS, bool Shut)>();
        var truth = new List<VirtualBeat>();
        ram.BeatEnded += truth.Add;
        ram.Stepped += engine => valves.Add((
            engine.TimeS, Math.Abs(engine.DeliveryFlowM3PerS) + Math.Abs(engine.WasteFlowM3PerS) < 0.02 * design.Ram.DrivePipe.AreaM2));
        var samples = ram.Samples(20).ToList();
        var hydraulics = SiteHydraulics.Of(site);
        var windows = new List<FlowWindow>();
        var scale = new RamScale(
            hydraulics.PressurePa(site.Supply.HeadM), hydraulics.PressurePa(site.Delivery.HeadM), hydraulics.PipePeriodS);
        var detector = new BeatDetector(scale, w =>
        {
            var window = FlowWindow.Copy(w.Beat, w.TimesS, w.PressuresPa, 1 / hydraulics.PressurePa(1), 0);
            windows.Add(window.WithShut(ShutSpan.Of(window, site.Supply.HeadM, hydraulics.PipePeriodS)));
        });
        detector.Add([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        detector.Finish();
        return (windows, valves, truth, hydraulics.PipePeriodS);
    }

    private static (double[] TimesS, double[] PressuresPa) Samples(RamSite site)
    {
        var samples = Simulation(Design(site)).Samples(20).ToList();
        return ([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
    }

    private static VirtualRam.Design.RamDesign Design(RamSite site) =>
        VirtualRam.Design.RamDesigner.Design(site, VirtualRam.Design.RamCharacter.Smooth, VirtualRam.Design.PipeDetail.Elastic);

    private static RamSimulation Simulation(VirtualRam.Design.RamDesign design) =>
        new(design.Ram, design.Sensor with { RateHz = 1000 }, new SimulationOptions { Seed = 3 });

    private static void Holds(Figure? figure, double truth)
    {
        Assert.NotNull(figure);
        Assert.InRange(truth, figure.Value.Value - figure.Value.U, figure.Value.Value + figure.Value.U);
    }
}
