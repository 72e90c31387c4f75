using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.States;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Truth;
using Clackbeat.Words;

namespace Clackbeat.Signal.Tests.Analysis;

/// <summary>
/// Where a leak was not ruled out, the delivered flow is an upper bound: what runs back past the delivery valve counts as delivered. The
/// virtual ram's own water balance says what really arrived.
/// </summary>
public class LeakBoundTests
{
    private static readonly Lazy<RamAnalysis> Well = new(() => Analyse(Fault.None, 3, null));

    [Theory]
    [InlineData(RamCondition.DeliveryValveLeaking)]
    [InlineData(RamCondition.WasteValveLeaking)]
    public void A_leaking_ram_delivers_at_most_what_is_said_with_a_baseline_and_without(RamCondition condition)
    {
        var fault = new Fault { Condition = condition, Severity = 0.6 };
        double arrived = 0;
        RamAnalysis alone = Analyse(fault, 4, null, delivered => arrived = delivered);
        RamAnalysis against = Analyse(fault, 4, Well.Value);
        foreach (RamAnalysis analysis in (RamAnalysis[])[alone, against])
        {
            Figure delivered = analysis.Flow.DeliveredM3PerS!.Value;
            Assert.True(delivered.IsUpperBound);
            Assert.True(analysis.Efficiency.DAubuisson!.Value.IsUpperBound);
            Assert.False(analysis.Flow.WasteM3PerS!.Value.IsUpperBound);
            Assert.True(delivered.Value + delivered.U >= arrived);
        }

        // Without the bound it would be false: the plain figure overstates what arrives by more than its ±.
        Assert.True(alone.Flow.DeliveredM3PerS!.Value.Value - alone.Flow.DeliveredM3PerS.Value.U > arrived);
    }

    [Fact]
    public void A_well_ram_with_a_baseline_has_plain_figures_and_without_one_is_told_why_it_has_not()
    {
        RamAnalysis against = Analyse(Fault.None, 5, Well.Value);
        RamAnalysis alone = Analyse(Fault.None, 5, null);
        Assert.False(against.Flow.DeliveredM3PerS!.Value.IsUpperBound);
        Assert.True(alone.Flow.DeliveredM3PerS!.Value.IsUpperBound);
        Assert.Contains(alone.Limits, l => l.Code == "delivered-bound-no-baseline");
        Assert.False(alone.AsWell().Flow.DeliveredM3PerS!.Value.IsUpperBound);
        Assert.DoesNotContain(alone.AsWell().Limits, l => l.Code == "delivered-bound-no-baseline");
    }

    [Fact]
    public void A_bucket_at_the_outlet_during_the_record_lifts_the_bound_and_one_of_another_day_does_not()
    {
        double arrived = 0;
        Analyse(Fault.None, 5, null, delivered => arrived = delivered);
        var bucket = new BucketTest { Outlet = BucketOutlet.Delivery, VolumeM3 = 60 * arrived, TimeS = 60, OfThisRecord = true };
        Assert.False(Analyse(Fault.None, 5, null, bucket: bucket).Flow.DeliveredM3PerS!.Value.IsUpperBound);
        Assert.True(Analyse(Fault.None, 5, null, bucket: bucket with { OfThisRecord = false }).Flow.DeliveredM3PerS!.Value.IsUpperBound);
    }

    [Fact]
    public void That_more_energy_is_delivered_is_never_given_as_evidence_of_a_leak()
    {
        RamAnalysis analysis = Analyse(new Fault { Condition = RamCondition.DeliveryValveLeaking, Severity = 0.9 }, 4, Well.Value);
        Assert.Contains(analysis.Diagnosis, f => f.Condition == "delivery-valve-leaking");
        Assert.DoesNotContain(analysis.Diagnosis.SelectMany(f => f.Evidence), e => Catalogue.English.Say(e).Contains("More of the water's energy", StringComparison.Ordinal));
        Assert.DoesNotContain(analysis.Diagnosis.SelectMany(f => f.Features), s => s is { Feature: Clackbeat.Signal.Diagnosis.Feature.Yield, Change: > 0 });
    }

    [Fact]
    public void A_ram_that_has_stopped_delivers_nothing_and_says_until_when_it_did()
    {
        RamAnalysis stopped = Analyse(new Fault { Condition = RamCondition.StoppedShut, StopsAtS = 20, Severity = 1 }, 4, null);
        Assert.Equal(RamState.StoppedShut, stopped.State);
        Assert.Null(stopped.Flow.DeliveredM3PerS);
        Assert.Null(stopped.Efficiency.DAubuisson);
        Assert.InRange(stopped.WhileBeating!.UntilS, 15, 21);
        Assert.True(stopped.WhileBeating.Flow.DeliveredM3PerS is { Value: > 0 });
    }

    private static RamAnalysis Analyse(Fault fault, int seed, RamAnalysis? well, Action<double>? arrived = null, BucketTest? bucket = null)
    {
        (double[] times, double[] pressures, List<VirtualBeat> truth) = Rams.Record(Rams.Steel, 40, fault: fault, seed: seed);
        arrived?.Invoke(truth.Sum(b => b.DeliveredM3) / truth.Sum(b => b.IntervalS));
        RamSite site = bucket is null ? Rams.Steel : Rams.Steel with { BucketTests = [bucket] };
        var analyser = new RamAnalyser(site, well?.Signature);
        analyser.Add(times, pressures);
        return analyser.Finish("a leak");
    }
}
