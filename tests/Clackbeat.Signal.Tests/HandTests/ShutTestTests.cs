using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Check;
using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Tests.HandTests;

public sealed class ShutTestTests
{
    private const double RateHz = 200;

    private static readonly ExpectedFigures Expected = ExpectedFigures.For(Rams.Steel);

    [Fact]
    public void A_level_that_stands_until_the_release_means_that_both_valves_hold() =>
        Assert.Equal(ShutVerdict.BothHold, Read((t, p0) => p0).Verdict);

    [Theory]
    [InlineData(0.05)]
    [InlineData(0.5)]
    public void A_leaking_delivery_valve_fills_the_body_and_the_drive_pipes_give_tells_how_much(double litresPerMinute)
    {
        // By hand: an orifice from the vessel at Pd into a space of give C, C dp/dt = Q √((Pd − p)/(Pd − P0)), so √(Pd − p) falls evenly.
        double give = Give();
        double pd = Expected.DeliveryPa;
        double flow = litresPerMinute / 60_000;
        ShutResult result = Read((t, p0) =>
        {
            double root = Math.Sqrt(pd - p0);
            return pd - Math.Pow(Math.Max(0, root - (flow * t / (2 * give * root))), 2);
        }, isGateAtIntake: true);
        Assert.Equal(ShutVerdict.DeliveryValveLeaks, result.Verdict);

        // Over the first third of the way the flow falls by a sixth, and the line is its mean; what outruns the blocks is read too small.
        Assert.InRange(result.LeastLeakM3PerS!.Value, litresPerMinute > 0.2 ? 0.05 * flow : 0.8 * flow, 1.02 * flow);
    }

    [Fact]
    public void A_leaking_waste_valve_lets_it_fall() =>
        Assert.Equal(ShutVerdict.WasteValveLeaks, Read((t, p0) => p0 * Math.Exp(-t / 12)).Verdict);

    [Fact]
    public void A_climb_that_ends_well_under_the_vessels_pressure_means_that_both_leak() =>
        Assert.Equal(ShutVerdict.BothLeak, Read((t, p0) => p0 + (0.5 * (Expected.DeliveryPa - p0) * (1 - Math.Exp(-t / 2)))).Verdict);

    [Fact]
    public void What_does_not_show_the_test_is_refused_with_what_was_missing()
    {
        Assert.Equal("check-shut-not-drained", Why(Read((t, p0) => p0, drains: false)));
        Assert.Equal("check-shut-not-static", Why(Read((t, p0) => p0, start: 0.3)));
        Assert.Equal("check-shut-short", Why(ShutTest.Read([0, 1], [0, 0], Rams.Steel, false)));
    }

    [Fact]
    public void The_cheapest_test_that_separates_is_proposed_and_none_where_the_first_stands_clear()
    {
        Assert.Equal("shut", HandTest.For([Of(Conditions.Healthy, 0.5), Of(Conditions.DeliveryValveLeaking, 0.4)])!.Code);
        Assert.Equal("shut", HandTest.For([Of(Conditions.WasteValveLeaking, 0.5), Of(Conditions.DeliveryValveLeaking, 0.4)])!.Code);
        Assert.Equal("intake", HandTest.For([Of(Conditions.SupplyStarved, 0.5), Of(Conditions.AirInDrivePipe, 0.3)])!.Code);
        Assert.Equal("shut", HandTest.For([Of(Conditions.DeliveryMainLeaking, 0.5), Of(Conditions.DeliveryValveLeaking, 0.4)])!.Code);
        Assert.Equal("bucket", HandTest.For([Of(Conditions.Healthy, 0.5), Of(Conditions.DeliveryMainLeaking, 0.4)])!.Code);
        Assert.Null(HandTest.For([Of(Conditions.SupplyStarved, 0.9), Of(Conditions.AirInDrivePipe, 0.2)]));
    }

    private static Finding Of(string condition, double probability) => new(condition, probability, [], Fact.Of("few-beats"));

    private static string Why(ShutResult result)
    {
        Assert.Equal(ShutVerdict.Unclear, result.Verdict);
        return Assert.Single(result.Evidence).Code;
    }

    private static double Give()
    {
        PipeReach reach = Expected.Hydraulics.Sections[0].Reach;
        return reach.AreaM2 * reach.LengthM / (Expected.Hydraulics.Water.DensityKgPerM3 * reach.WaveSpeedMPerS * reach.WaveSpeedMPerS);
    }

    /// <summary>Ten seconds at rest, thirty trapped, six empty.</summary>
    private static ShutResult Read(Func<double, double, double> trapped, bool isGateAtIntake = false, bool drains = true, double start = 1)
    {
        double p0 = Expected.StaticPa;
        double[] times = [.. Enumerable.Range(0, (int)(46 * RateHz)).Select(i => i / RateHz)];
        double[] pressures = [.. times.Select((t, i) => (t < 10 ? start * p0 : t < 40 ? trapped(t - 10, p0) : drains ? 0 : p0) + (40 * Math.Sin(i)))];
        return ShutTest.Read(times, pressures, Rams.Steel, isGateAtIntake);
    }
}
