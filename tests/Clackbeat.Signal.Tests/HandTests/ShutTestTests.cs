using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Check;

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
    public void A_leak_that_empties_the_body_at_once_is_told_from_an_early_release() =>
        Assert.Equal(ShutVerdict.WasteValveLeaks, Read((t, p0) => p0 * Math.Exp(-t / 0.1)).Verdict);

    [Fact]
    public void A_climb_that_ends_well_under_the_vessels_pressure_is_the_delivery_valve_and_something_lets_water_out_again()
    {
        ShutResult result = Read((t, p0) => p0 + (0.5 * (Expected.DeliveryPa - p0) * (1 - Math.Exp(-t / 2))));
        Assert.Equal(ShutVerdict.DeliveryValveLeaks, result.Verdict);
        Assert.Contains(result.Evidence, e => e.Code == "check-shut-lets-out");
    }

    // Water in a stand pipe that swings by a twentieth of the head, seen through a gate that leaks.
    [Fact]
    public void A_level_that_swings_a_little_is_held() =>
        Assert.Equal(ShutVerdict.BothHold, Read((t, p0) => p0 * (1 + (0.05 * Math.Sin(t / 4)))).Verdict);

    // A sensor of 1 MPa may read 10 kPa too much: half of a small supply head.
    [Theory]
    [InlineData(0.25)]
    [InlineData(-0.25)]
    public void The_sensors_zero_does_not_matter(double ofHead)
    {
        Assert.Equal(ShutVerdict.BothHold, Read((t, p0) => p0, offset: ofHead).Verdict);
        Assert.Equal(ShutVerdict.WasteValveLeaks, Read((t, p0) => 0.6 * p0, offset: ofHead).Verdict);
    }

    [Fact]
    public void A_push_that_was_noted_need_not_be_found()
    {
        (double[] times, double[] pressures) = Record((t, p0) => p0, 20);
        Assert.Equal(ShutVerdict.BothHold, ShutTest.Read(times, pressures, Rams.Steel, isGateAtIntake: false, pushedS: 40).Verdict);
    }

    [Fact]
    public void What_does_not_show_the_test_is_refused_with_what_was_missing()
    {
        Assert.Equal("check-shut-not-drained", Why(Read((t, p0) => p0, drains: false)));
        Assert.Equal("check-shut-not-static", Why(Read((t, p0) => p0, start: 0.3)));
        Assert.Equal("check-shut-short", Why(ShutTest.Read([0, 1], [0, 0], Rams.Steel, false)));
    }

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

    private static ShutResult Read(Func<double, double, double> trapped, bool isGateAtIntake = false, bool drains = true, double start = 1, double offset = 0)
    {
        (double[] times, double[] pressures) = Record(trapped, 6, drains, start);
        return ShutTest.Read(times, [.. pressures.Select(p => p + (offset * Expected.StaticPa))], Rams.Steel, isGateAtIntake);
    }

    /// <summary>Ten seconds at rest, thirty trapped, some empty.</summary>
    private static (double[] Times, double[] Pressures) Record(Func<double, double, double> trapped, double emptyS, bool drains = true, double start = 1)
    {
        double p0 = Expected.StaticPa;
        double[] times = [.. Enumerable.Range(0, (int)((40 + emptyS) * RateHz)).Select(i => i / RateHz)];
        return (times, [.. times.Select((t, i) => (t < 10 ? start * p0 : t < 40 ? trapped(t - 10, p0) : drains ? 0 : p0) + (40 * Math.Sin(i)))]);
    }
}
