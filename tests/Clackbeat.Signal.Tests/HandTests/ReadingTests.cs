using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Signal.HandTests;
using Clackbeat.Signal.Tests.Diagnosis;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Conditions;

namespace Clackbeat.Signal.Tests.HandTests;

public sealed class ReadingTests
{
    private static readonly Lazy<RamAnalysis> Record = new(() => Clinic.Examine(Rams.Steel, Fault.None, lengthS: 12));

    // By hand: 6 ± 0.3 L/min delivered; the bucket of 12 L is read to 3 % and timed to 0.5 s.
    [Theory]
    [InlineData(120, TestVerdict.AllArrives)]
    [InlineData(126, TestVerdict.AllArrives)]
    [InlineData(150, TestVerdict.LessArrives)]
    [InlineData(90, TestVerdict.MoreArrives)]
    public void A_bucket_is_held_against_the_delivered_flow_within_the_uncertainty_of_both(double timeS, TestVerdict verdict) =>
        Assert.Equal(verdict, BucketReading.Read(Delivering(6, 0.3), Bucket(BucketOutlet.Delivery, timeS)).Verdict);

    [Fact]
    public void A_bucket_elsewhere_or_a_record_without_flow_decides_nothing()
    {
        Assert.Equal("check-bucket-outlet", BucketReading.Read(Delivering(6, 0.3), Bucket(BucketOutlet.Waste, 120)).Evidence[0].Code);
        Assert.Equal("check-bucket-no-flow", BucketReading.Read(Record.Value with { Flow = new FlowSummary() }, Bucket(BucketOutlet.Delivery, 120)).Evidence[0].Code);
    }

    [Theory]
    [InlineData(1, TestVerdict.LevelRight)]
    [InlineData(0.7, TestVerdict.LevelLow)]
    [InlineData(1.3, TestVerdict.LevelHigh)]
    public void The_level_at_rest_is_held_against_the_supply_head(double share, TestVerdict verdict)
    {
        double staticPa = ExpectedFigures.For(Rams.Steel).StaticPa;
        double[] times = [.. Enumerable.Range(0, 1000).Select(i => i * 0.01)];
        Assert.Equal(verdict, LevelReading.Read(times, [.. times.Select((_, i) => (share * staticPa) + (40 * Math.Sin(i)))], Rams.Steel).Verdict);
        Assert.Equal("check-level-moves", LevelReading.Read(times, [.. times.Select(t => staticPa * (1 + (0.3 * Math.Sin(t))))], Rams.Steel).Evidence[0].Code);
        Assert.Equal("check-level-short", LevelReading.Read([0, 1], [0, 0], Rams.Steel).Evidence[0].Code);
    }

    [Fact]
    public void A_record_made_again_tells_whether_what_was_done_has_mended_the_ram()
    {
        RamAnalysis starved = Clinic.Examine(Rams.Steel, new Fault { Condition = RamCondition.SupplyStarved, Severity = 0.7 }, lengthS: 20);
        RamAnalysis well = Clinic.Examine(Rams.Steel, Fault.None, lengthS: 20);
        Assert.Equal(TestVerdict.Mended, RepeatReading.Read("intake", starved, well).Verdict);
        Assert.Equal(TestVerdict.AsBefore, RepeatReading.Read("intake", starved, starved).Verdict);
        Assert.Equal("check-repeat-few-beats", RepeatReading.Read("intake", starved, well with { Signature = null }).Evidence[0].Code);
    }

    private static RamAnalysis Delivering(double litresPerMinute, double u) => Record.Value with
    {
        Flow = Record.Value.Flow with { DeliveredM3PerS = new Figure(litresPerMinute / 60_000, u / 60_000) },
    };

    private static BucketTest Bucket(BucketOutlet outlet, double timeS) => new() { Outlet = outlet, VolumeM3 = 0.012, TimeS = timeS };
}
