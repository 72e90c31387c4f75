using Clackbeat.Hydraulics.Transients;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>The level of a stand pipe beside closed forms, and the flows of a ram behind one beside those of the virtual ram.</summary>
public class StandPipeLevelTests
{
    private const double IntervalS = 1.5;

    private static readonly RamSite Site = Rams.Polyethylene with
    {
        Supply = Rams.Polyethylene.Supply with { StandPipe = new StandPipe { BoreM = 0.12, FeedLengthM = 20, FeedBoreM = 0.06 } },
    };

    [Theory]
    [InlineData(true)]
    [InlineData(false)] // A feed that isn't described is steady.
    public void A_flow_that_swings_moves_the_level_as_the_linear_equations_say(bool described)
    {
        RamSite site = described ? Site : Site with { Supply = Site.Supply with { StandPipe = new StandPipe { BoreM = 0.12 } } };
        (StandPipeLevel level, FlowWindow window, double[] velocity) = Swinging(site, 0.5, 0.2);
        FlowWindow swung = level.Swung(window, velocity);

        // z'' + ω₀² z = −(Q₁ ω/A_s) cos ωt without friction, ω₀ from the period of the mass oscillation (Wylie and Streeter, 1993, ch. 11).
        double stand = Circle(0.12);
        double own = described ? 2 * Math.PI / MassOscillation.PeriodS(20, Circle(0.06), stand) : 0;
        double omega = 2 * Math.PI / IntervalS;
        double amplitude = 0.2 * Circle(site.DrivePipe.BoreM) * omega / (stand * ((omega * omega) - (own * own)));
        Assert.Equal(amplitude, 0.5 * (swung.SwingM!.Max() - swung.SwingM!.Min()), 0.03 * amplitude);
        Assert.Equal(0, swung.SwingM![300..1800].Average(), 0.02 * amplitude);
        Assert.Equal(window.HeadM[100] - swung.SwingM![100], swung.ColumnHeadM[100]);
        Assert.Same(swung.SwingM, swung.Scaled(1.01).SwingM);
    }

    [Fact]
    public void A_feed_loses_head_as_Darcy_and_Weisbach_say()
    {
        StandPipeLevel level = StandPipeLevel.Of(Site, SiteHydraulics.Of(Site))!;
        double feed = 0.6 * Circle(Site.DrivePipe.BoreM) / Circle(0.06);

        // Moody's chart: 0.0195 for a smooth pipe at a Reynolds number of 50 000; a half for the entrance and one for the exit.
        double loss = ((0.0207 * 20 / 0.06) + 1.5) * feed * feed / (2 * 9.80665);
        Assert.Equal(loss, level.LossM(0.6), 0.05 * loss);
        Assert.Null(StandPipeLevel.Of(Rams.Polyethylene, SiteHydraulics.Of(Rams.Polyethylene)));
    }

    [Fact]
    public void Behind_a_stand_pipe_that_is_named_the_flows_hold()
    {
        RamDesign design = RamDesigner.Design(Site, RamCharacter.Smooth, PipeDetail.Elastic);
        var ram = new RamSimulation(design.Ram, design.Sensor with { RateHz = 1000 }, new SimulationOptions { Seed = 4 });
        var truth = new List<VirtualBeat>();
        ram.BeatEnded += truth.Add;
        var samples = ram.Samples(40).ToList();
        (double[] times, double[] pressures) = ([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        double seconds = truth.Sum(b => b.IntervalS);
        double waste = truth.Sum(b => b.WasteM3) / seconds;
        double delivered = truth.Sum(b => b.DeliveredM3) / seconds;
        FlowResult named = FlowBench.Measure(Site, times, pressures);

        Assert.Equal(waste, named.Flow.WasteM3PerS!.Value.Value, 0.04 * waste);
        Assert.InRange(delivered, named.Flow.DeliveredM3PerS!.Value.Value - named.Flow.DeliveredM3PerS!.Value.U,
            named.Flow.DeliveredM3PerS!.Value.Value + named.Flow.DeliveredM3PerS!.Value.U);

        // The head is that of the source, not that of the level at the mouth.
        Assert.Equal(Site.Supply.HeadM, named.Features!.SupplyHeadM, 0.05);
        Assert.Null(named.FoundSupplyHeadM);
    }

    private static (StandPipeLevel Level, FlowWindow Window, double[] Velocity) Swinging(RamSite site, double mean, double swing)
    {
        double[] times = [.. Enumerable.Range(0, 2001).Select(i => 0.001 * i)];
        double[] velocity = [.. times.Select(t => mean + (swing * Math.Sin(2 * Math.PI * t / IntervalS)))];
        var beat = new Beat
        {
            Index = 0,
            ClosureS = 0.3,
            NextClosureS = 0.3 + IntervalS,
            DeliveryEndS = 0.4,
            OpenStartS = 0.5,
            PeakPa = 0,
            PeakEstimatePa = 0,
            PeakUncertaintyPa = 0,
            DeliveryPa = 0,
            SuctionPa = 0,
            OpenStartPa = 0,
        };
        return (StandPipeLevel.Of(site, SiteHydraulics.Of(site))!, new FlowWindow(beat, times, new double[times.Length]), velocity);
    }

    private static double Circle(double boreM) => Math.PI / 4 * boreM * boreM;
}
