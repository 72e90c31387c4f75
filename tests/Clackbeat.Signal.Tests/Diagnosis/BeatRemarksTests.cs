using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Facts;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Signal.Tests.Diagnosis;

/// <summary>Signs that name no condition, against what was put into the virtual ram.</summary>
public class BeatRemarksTests
{
    private static readonly Lazy<RamAnalysis> Well = new(() => Clinic.Examine(Rams.Steel, Fault.None));

    [Fact]
    public void A_lock_nut_that_slips_is_seen_at_the_beat_in_which_it_slips()
    {
        RamAnalysis analysis = Clinic.Examine(Rams.Steel, new Fault { Condition = RamCondition.LockNutSlips, Severity = 0.5, StopsAtS = 17 });
        Fact step = Assert.Single(analysis.Findings, f => f.Code == "interval-step");
        Assert.InRange(Number(step, "at_s"), 17 - (2 * Number(step, "before_s")), 17 + (2 * Number(step, "before_s")));
        Assert.True(Number(step, "after_s") > 1.03 * Number(step, "before_s"));
    }

    [Theory]
    [InlineData(0.006, 0, false)]
    [InlineData(0.006, 0.06, true)]
    public void Wear_and_scatter_are_no_step_and_a_step_is(double scatter, double step, bool isSeen)
    {
        // Fifty beats that drift by a tenth in all; the step comes on top.
        var random = new Random(3);
        double at = 0;
        Beat[] beats = [.. Enumerable.Range(0, 50).Select(i => BeatOf(i, ref at, (step > 0 ? 1 : 1 + (0.002 * i)) + (i >= 30 ? step : 0) + (scatter * (random.NextDouble() - 0.5))))];
        Fact? found = IntervalStep.Find(beats, 0);
        Assert.Equal(isSeen, found is not null);
        if (found is not null)
        {
            Assert.Equal(beats[30].ClosureS, Number(found, "at_s"), 1e-9);
        }
    }

    [Fact]
    public void A_second_ram_on_the_main_is_found_at_its_own_rate()
    {
        var fault = new Fault { Condition = RamCondition.SecondRam, Severity = 0.6 };
        RamParameters ill = FaultEffects.Apply(RamDesigner.Design(Rams.Steel, RamCharacter.Smooth, PipeDetail.Elastic).Ram, fault);
        Fact found = Assert.Single(Clinic.Examine(Rams.Steel, fault, lengthS: 60).Findings, f => f.Code == "foreign-rate");
        double truth = 60 / ill.DeliveryMain.NeighbourPeriodS;
        Assert.Contains(new[] { "slower_per_min", "faster_per_min" }, name => Math.Abs(Number(found, name) - truth) < 0.02 * truth);
    }

    [Fact]
    public void A_drowned_outlet_is_told_with_its_depth_and_a_moved_zero_is_not()
    {
        Signature well = Well.Value.Signature!;
        Fact found = Assert.Single(
            Clinic.Examine(Rams.Steel, new Fault { Condition = RamCondition.OutletDrowned, Severity = 0.4 }, well).Findings, f => f.Code == "outlet-drowned");
        double depthM = 0.4 * 0.4 * Rams.Steel.Supply.HeadM;
        Assert.InRange(Number(found, "depth_m"), 0.8 * depthM, 1.2 * depthM);
        Assert.DoesNotContain(Clinic.Examine(Rams.Steel, Fault.None, well, sensor: s => s with { OffsetPa = 6000 }).Findings, BeatRemarks.IsOne);
    }

    [Fact]
    public void A_well_ram_shows_none_of_them() => Assert.DoesNotContain(Well.Value.Findings, BeatRemarks.IsOne);

    private static double Number(Fact fact, string name) => fact.Number(name)!.Value;

    private static Beat BeatOf(int index, ref double at, double intervalS)
    {
        double start = at;
        at += intervalS;
        return new Beat
        {
            Index = index,
            ClosureS = start,
            NextClosureS = at,
            DeliveryEndS = start + 0.1,
            OpenStartS = start + 0.2,
            PeakPa = 3e5,
            PeakEstimatePa = 3e5,
            PeakUncertaintyPa = 0,
            DeliveryPa = 2e5,
            SuctionPa = -1e4,
            OpenStartPa = 0,
        };
    }
}
