using Clackbeat.VirtualRam.Conditions;
using Clackbeat.Watch.Live;

namespace Clackbeat.Watch.Tests;

/// <summary>A ram that stops is told within three seconds, and how it stopped; a ram that beats raises no alarm.</summary>
public class StandstillTests
{
    private const double PieceS = 0.04;

    [Theory]
    [InlineData(RamCondition.StoppedOpen, LiveState.StoppedOpen)]
    [InlineData(RamCondition.StoppedShut, LiveState.StoppedShut)]
    public void A_ram_that_stops_is_told_within_three_seconds_of_its_last_beat(RamCondition condition, object told)
    {
        var fault = new Fault { Condition = condition, StopsAtS = 20, Severity = 0.5 };
        List<(double TimeS, LiveState State, double? ClosureS)> states = Follow(Rams.Samples(32, fault));
        (double TimeS, LiveState State, double? ClosureS) first =
            states.First(s => s.State is LiveState.StoppedOpen or LiveState.StoppedShut);
        Assert.InRange(first.TimeS - first.ClosureS!.Value, 0, 3);
        Assert.Equal((LiveState)told, first.State);
        Assert.Equal((LiveState)told, states[^1].State);
    }

    [Theory]
    [InlineData(RamCondition.Healthy)]
    [InlineData(RamCondition.DeliveryValveLate)]
    [InlineData(RamCondition.SupplyStarved)]
    public void A_ram_that_beats_is_never_told_to_stand_still(RamCondition condition)
    {
        var fault = new Fault { Condition = condition, Severity = 0.5 };
        Assert.DoesNotContain(
            Follow(Rams.Samples(60, fault)), s => s.State is LiveState.StoppedOpen or LiveState.StoppedShut or LiveState.NoSignal);
    }

    [Fact]
    public void A_reading_that_freezes_is_no_signal()
    {
        var fault = new Fault { Condition = RamCondition.SensorFault, SensorFault = SensorFaultKind.FlatLine };
        Assert.Equal(LiveState.NoSignal, Follow(Rams.Samples(6, fault))[^1].State);
    }

    private static List<(double TimeS, LiveState State, double? ClosureS)> Follow((double[] TimesS, double[] PressuresPa) samples)
    {
        var pipeline = new LivePipeline(Rams.Site, TimeProvider.System);
        List<(double, LiveState, double?)> states = [];
        int piece = (int)(PieceS * Rams.RateHz);
        for (int i = 0; i + piece <= samples.TimesS.Length; i += piece)
        {
            pipeline.Take(samples.TimesS.AsSpan(i, piece), samples.PressuresPa.AsSpan(i, piece));
            (long column, int beat) = (long.MaxValue - 1, int.MaxValue);
            LiveView view = pipeline.Look(ref column, ref beat);
            states.Add((view.NewestS, view.State, view.LastClosureS));
        }

        return states;
    }
}
