using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Facts;
using Clackbeat.Words;

namespace Clackbeat.Signal.Tests.Diagnosis;

/// <summary>Rams that stand still.</summary>
public class SilentRamTests
{
    [Theory]
    [InlineData(Conditions.StoppedShut)]
    [InlineData(Conditions.StoppedOpen)]
    public void A_ram_that_stops_is_told_by_the_level_it_comes_to_rest_at(string condition)
    {
        RamAnalysis analysis = Clinic.Examine(Rams.Pvc, Clinic.Ill(condition));
        Assert.Equal(condition, analysis.Diagnosis[0].Condition);
        Assert.True(analysis.Diagnosis[0].Probability > 0.9);
        Assert.Contains("To start it", Catalogue.English.Say(analysis.Diagnosis[0].Advice), StringComparison.Ordinal);
    }

    [Fact]
    public void Where_nothing_presses_no_water_and_a_dead_sensor_are_named_beside_an_open_valve()
    {
        double[] times = [.. Enumerable.Range(0, 20_000).Select(i => i * 0.001)];
        var random = new Random(3);
        double[] pressures = [.. times.Select(_ => 200 * (random.NextDouble() - 0.5))];
        string[] named = [.. Rams.Analyse(Rams.Steel, times, pressures).Diagnosis.Select(f => f.Condition)];
        Assert.Equal([Conditions.StoppedOpen, Conditions.SupplyStarved, Conditions.SensorFault], named);
    }

    [Fact]
    public void Without_a_beat_before_it_the_verdict_is_less_sure()
    {
        double[] times = [.. Enumerable.Range(0, 20_000).Select(i => i * 0.001)];
        var random = new Random(3);
        double supplyPa = 999.5 * 9.80665 * Rams.Steel.Supply.HeadM;
        double[] pressures = [.. times.Select(_ => supplyPa + (200 * (random.NextDouble() - 0.5)))];
        Finding first = Rams.Analyse(Rams.Steel, times, pressures).Diagnosis[0];
        Assert.Equal(Conditions.StoppedShut, first.Condition);
        Assert.True(first.Probability < 0.9);
    }

    [Fact]
    public void A_leak_that_ends_in_a_stop_is_named_as_its_likely_cause()
    {
        Finding stop = Found(Conditions.StoppedShut, 0.97);
        Finding leak = Found(Conditions.WasteValveLeaking, 0.8);
        Finding main = Found(Conditions.DeliveryRestricted, 0.9);
        Fact cause = Assert.Single(SilentRam.WithCause(stop, [main, leak]).Evidence, e => e.Code == "stopped-likely-cause");
        Assert.Equal("The likely cause, by its last beats: the waste valve leaks while shut.", Catalogue.English.Say(cause));
        Assert.DoesNotContain(SilentRam.WithCause(stop, [main]).Evidence, e => e.Code == "stopped-likely-cause");
    }

    private static Finding Found(string condition, double probability) => new(condition, probability, [], ConditionTraits.Advice(condition));
}
