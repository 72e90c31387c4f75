using Clackbeat.Site.Check;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.HandTests;

/// <summary>
/// Reads the test for leaks: the waste valve is held shut with the gate open, then the gate is shut, after half a minute the waste valve is
/// pushed open. Water is trapped between gate, waste valve and delivery valve. It is so little that any leak which costs water has moved its
/// level within seconds: the level at which it comes to rest decides, held against the level with the gate open. Both are counted from the
/// level of the emptied body, so the sensor's zero doesn't matter. Over the supply's level only the vessel can hold it: the delivery valve leaks,
/// be it that gate or waste valve let some of it out again. Under it a waste valve or joint leaks. With the gate at the intake the space is the
/// drive pipe, whose give V/(ρa²) turns the rate into a flow: Q = dp/dt · V/(ρa²) (E. B. Wylie, V. L. Streeter, Fluid Transients in
/// Systems, 1993, §1.3). Air in the pipe gives more, so the true leak is at least that.
/// </summary>
public static class ShutTest
{
    private const double StartS = 3;
    private const double LeastRecordS = 15;
    private const double LeastHoldS = 15;
    private const double EndS = 1;
    private const double RestS = 10;

    // A supply that has sunk is a fault of its own and no reason to refuse the test; a vessel's pressure or an empty body lies further off.
    private const double StaticWithin = 0.5;
    private const double Drained = 0.2;

    // Water in a stand pipe swings on for a minute once a ram stands, by up to 7 % of the supply head on the choosing set, and the level
    // behind a gate that leaks follows it.
    private const double Still = 0.1;

    // The rate is read over the first third of the way, where the pressure that drives the leak has hardly changed.
    private const double Way = 0.3;
    private const double LongestWayS = 5;
    private const double NearVessel = 0.85;

    /// <summary>Reads a recording of the test.</summary>
    /// <param name="timesS">Times [s].</param>
    /// <param name="pressuresPa">Gauge pressures at the body [Pa].</param>
    /// <param name="site">The ram.</param>
    /// <param name="isGateAtIntake">The gate stands at the intake, so that the drive pipe is part of the trapped space.</param>
    /// <param name="pushedS">When the waste valve was pushed open, after the first sample [s]; null where nobody noted it.</param>
    public static ShutResult Read(ReadOnlySpan<double> timesS, ReadOnlySpan<double> pressuresPa, RamSite site, bool isGateAtIntake, double? pushedS = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        var expected = ExpectedFigures.For(site);
        var trace = LevelTrace.Of(timesS, pressuresPa);
        if (trace.Count < LevelTrace.Blocks(LeastRecordS))
        {
            return Unclear(Fact.Of("check-shut-short", ("record_s", trace.Count * LevelTrace.BlockS)));
        }

        int start = LevelTrace.Blocks(StartS);
        double staticPa = trace.Mean(0, start);
        double supplyPa = expected.Hydraulics.PressurePa(site.Supply.HeadM);
        if (Math.Abs(staticPa - expected.StaticPa) > StaticWithin * supplyPa || trace.Deviation(0, start) > 0.1 * supplyPa)
        {
            return Unclear(Fact.Of("check-shut-not-static", ("level_kpa", staticPa / 1000), ("supply_kpa", expected.StaticPa / 1000)));
        }

        double emptyPa = trace.Mean(trace.Count - LevelTrace.Blocks(EndS), trace.Count);
        if (Math.Abs(staticPa - emptyPa - supplyPa) > StaticWithin * supplyPa)
        {
            return Unclear(Fact.Of("check-shut-not-drained", ("level_kpa", emptyPa / 1000)));
        }

        var levels = new Levels(staticPa, emptyPa, emptyPa + expected.Hydraulics.PressurePa(site.Delivery.HeadM));
        int release = pushedS is { } pushed ? Math.Clamp(LevelTrace.Blocks(pushed), start + 1, trace.Count) : Release(trace, levels);
        double restPa = trace.Median(Math.Max(start, release - LevelTrace.Blocks(RestS)), release);
        if (Math.Abs(restPa - staticPa) < Still * levels.SupplyPa)
        {
            return Held(start, release, levels, restPa);
        }

        return Moved(trace, Leaves(trace, start, release, levels, restPa), release, levels, restPa, isGateAtIntake ? GiveM3PerPa(site, expected) : null, expected);
    }

    /// <summary>
    /// The block before which the waste valve was still held: the end of what stands over the emptied body. By the steps it lies in the last
    /// quarter of the record. A body that was empty before the middle was emptied by a leak.
    /// </summary>
    private static int Release(LevelTrace trace, Levels levels)
    {
        int block = trace.Count;
        while (block > 0 && trace[block - 1] - levels.EmptyPa < Drained * levels.SupplyPa)
        {
            block--;
        }

        return block < trace.Count / 2 ? trace.Count : block;
    }

    /// <summary>The block in which the level leaves the supply's for good, on its way to where it rests.</summary>
    private static int Leaves(LevelTrace trace, int start, int release, Levels levels, double restPa)
    {
        double way = restPa - levels.StaticPa;
        int block = Enumerable.Range(start, release - start).First(b => (trace[b] - levels.StaticPa) / way >= 0.5);
        while (block > start && (trace[block - 1] - levels.StaticPa) * Math.Sign(way) > 0.5 * Still * levels.SupplyPa)
        {
            block--;
        }

        return block;
    }

    private static ShutResult Held(int start, int release, Levels levels, double restPa)
    {
        double heldS = (release - start) * LevelTrace.BlockS;
        return heldS < LeastHoldS
            ? Unclear(Fact.Of("check-shut-short-hold", ("held_s", heldS), ("needed_s", LeastHoldS)))
            : new ShutResult(ShutVerdict.BothHold, [Fact.Of("check-shut-held", ("level_kpa", restPa / 1000), ("held_s", heldS))]) { StaticPa = levels.StaticPa, EndPa = restPa };
    }

    private static ShutResult Moved(LevelTrace trace, int left, int release, Levels levels, double restPa, double? giveM3PerPa, ExpectedFigures expected)
    {
        bool rises = restPa > levels.StaticPa;
        double target = rises ? levels.VesselPa : levels.EmptyPa;
        int until = left;
        int last = Math.Min(release, left + LevelTrace.Blocks(LongestWayS));
        while (until < last && Math.Abs(trace[until] - levels.StaticPa) < Way * Math.Abs(target - levels.StaticPa))
        {
            until++;
        }

        // Quicker than three blocks the line is the jump over them: the true rate is at least that.
        double slope = until - left >= 3 ? trace.Slope(left, until) : (trace[Math.Min(left + 2, release - 1)] - levels.StaticPa) / (3 * LevelTrace.BlockS);
        var evidence = new List<Fact>
        {
            rises
                ? Fact.Of("check-shut-rose",
                    ("from_kpa", levels.StaticPa / 1000), ("to_kpa", restPa / 1000), ("slope_kpa_per_s", slope / 1000), ("vessel_kpa", levels.VesselPa / 1000))
                : Fact.Of("check-shut-fell", ("from_kpa", levels.StaticPa / 1000), ("to_kpa", restPa / 1000), ("slope_kpa_per_s", -slope / 1000)),
        };
        if (rises && restPa - levels.EmptyPa < NearVessel * (levels.VesselPa - levels.EmptyPa))
        {
            evidence.Add(Fact.Of("check-shut-lets-out"));
        }

        double? leak = giveM3PerPa * Math.Abs(slope);
        if (leak is { } flow)
        {
            double usual = 0.5 * (expected.Ram.DeliveredM3PerS.Low + expected.Ram.DeliveredM3PerS.High);
            evidence.Add(Fact.Of("check-shut-leak", ("leak_l_per_min", flow * 60_000), ("share", flow / usual)));
        }

        return new ShutResult(rises ? ShutVerdict.DeliveryValveLeaks : ShutVerdict.WasteValveLeaks, evidence)
        {
            StaticPa = levels.StaticPa,
            SlopePaPerS = slope,
            EndPa = restPa,
            LeastLeakM3PerS = leak,
        };
    }

    private static double GiveM3PerPa(RamSite site, ExpectedFigures expected) => expected.Hydraulics.Sections.Sum(
        s => s.Reach.AreaM2 * s.Reach.LengthM / (expected.Hydraulics.Water.DensityKgPerM3 * s.Reach.WaveSpeedMPerS * s.Reach.WaveSpeedMPerS));

    private static ShutResult Unclear(Fact why) => new(ShutVerdict.Unclear, [why]);

    /// <summary>What the level is held against.</summary>
    /// <param name="StaticPa">Level with the gate open [Pa gauge].</param>
    /// <param name="EmptyPa">Level of the emptied body: the sensor's own zero [Pa gauge].</param>
    /// <param name="VesselPa">Level of a vessel under the static delivery head [Pa gauge].</param>
    private readonly record struct Levels(double StaticPa, double EmptyPa, double VesselPa)
    {
        /// <summary>The supply head as it stood that day [Pa].</summary>
        public double SupplyPa => StaticPa - EmptyPa;
    }
}
