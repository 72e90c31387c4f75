using Clackbeat.Site.Check;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.HandTests;

/// <summary>
/// Reads the test for leaks: the waste valve is held shut with the gate open, then the gate is shut, after half a minute the waste valve is let
/// go. Water is trapped between gate, waste valve and delivery valve. A leaking delivery valve lets the vessel fill that space, so the
/// pressure climbs to the vessel's; a leaking waste valve or joint lets it fall. With the gate at the intake the space is the drive pipe,
/// whose give V/(ρa²) turns the rate into a flow: Q = dp/dt · V/(ρa²) (E. B. Wylie, V. L. Streeter, Fluid Transients in Systems, 1993, §1.3).
/// Air in the pipe gives more, so the true leak is at least that.
/// </summary>
public static class ShutTest
{
    private const double StartS = 3;
    private const double LeastRecordS = 15;
    private const double LeastHoldS = 15;
    private const double EndS = 1;
    private const double SettledS = 2;

    // A level is the supply head's within a third: the site file's head, the sensor's zero and its height are all known better.
    private const double StaticWithin = 0.33;
    private const double Drained = 0.2;

    // What moves less than this of the supply head is the sensor's drift or the tank's level.
    private const double Still = 0.02;

    // A release lasts moments; a low that lasts longer was a leak, or the hand let go early.
    private const double LongestLowS = 10;

    // The rate is read over the first third of the way, where the pressure that drives the leak has hardly changed.
    private const double Way = 0.3;
    private const double LongestWayS = 5;
    private const double NearVessel = 0.85;

    /// <summary>Reads a recording of the test.</summary>
    /// <param name="timesS">Times [s].</param>
    /// <param name="pressuresPa">Gauge pressures at the body [Pa].</param>
    /// <param name="site">The ram.</param>
    /// <param name="isGateAtIntake">The gate stands at the intake, so that the drive pipe is part of the trapped space.</param>
    public static ShutResult Read(ReadOnlySpan<double> timesS, ReadOnlySpan<double> pressuresPa, RamSite site, bool isGateAtIntake)
    {
        var expected = ExpectedFigures.For(site);
        var trace = LevelTrace.Of(timesS, pressuresPa);
        if (trace.Count < LevelTrace.Blocks(LeastRecordS))
        {
            return Unclear(Fact.Of("check-shut-short", ("record_s", trace.Count * LevelTrace.BlockS)));
        }

        int start = LevelTrace.Blocks(StartS);
        double staticPa = trace.Mean(0, start);
        if (Math.Abs(staticPa / expected.StaticPa - 1) > StaticWithin || trace.Deviation(0, start) > 0.1 * expected.StaticPa)
        {
            return Unclear(Fact.Of("check-shut-not-static", ("level_kpa", staticPa / 1000), ("supply_kpa", expected.StaticPa / 1000)));
        }

        int release = Release(trace, expected.StaticPa);
        if (release < 0)
        {
            return Unclear(Fact.Of("check-shut-not-drained", ("level_kpa", trace.Mean(trace.Count - LevelTrace.Blocks(EndS), trace.Count) / 1000)));
        }

        double band = Math.Max(4 * trace.Deviation(0, start), Still * expected.StaticPa);
        int left = Leaves(trace, start, release, staticPa, band);
        return left < 0 ? Held(trace, start, release, staticPa) : Moved(trace, left, release, staticPa, expected, isGateAtIntake ? GiveM3PerPa(site, expected) : null);
    }

    /// <summary>The block from which the body is empty until the end; −1 where it never is.</summary>
    private static int Release(LevelTrace trace, double supplyPa)
    {
        int block = trace.Count;
        while (block > 0 && trace[block - 1] < Drained * supplyPa)
        {
            block--;
        }

        return trace.Count - block >= LevelTrace.Blocks(EndS) ? block : -1;
    }

    private static int Leaves(LevelTrace trace, int start, int release, double staticPa, double band)
    {
        const int Stays = 3;
        bool low = (trace.Count - release) * LevelTrace.BlockS > LongestLowS;
        for (int b = start; b < (low ? release : release - LevelTrace.Blocks(EndS)); b++)
        {
            double way = trace[b] - staticPa;
            if (Math.Abs(way) > band && Enumerable.Range(b, Math.Min(Stays, release - b)).All(i => (trace[i] - staticPa) * way > band * Math.Abs(way)))
            {
                return b;
            }
        }

        return -1;
    }

    private static ShutResult Held(LevelTrace trace, int start, int release, double staticPa)
    {
        double heldS = (release - start) * LevelTrace.BlockS;
        return heldS < LeastHoldS
            ? Unclear(Fact.Of("check-shut-short-hold", ("held_s", heldS), ("needed_s", LeastHoldS)))
            : new ShutResult(ShutVerdict.BothHold, [Fact.Of("check-shut-held", ("level_kpa", staticPa / 1000), ("held_s", heldS))]) { StaticPa = staticPa, EndPa = trace[release - 1] };
    }

    private static ShutResult Moved(LevelTrace trace, int left, int release, double staticPa, ExpectedFigures expected, double? giveM3PerPa)
    {
        bool rises = trace[left] > staticPa;
        double target = rises ? expected.DeliveryPa : 0;
        int until = left;
        int last = Math.Min(release, left + LevelTrace.Blocks(LongestWayS));
        while (until < last && Math.Abs(trace[until] - staticPa) < Way * Math.Abs(target - staticPa))
        {
            until++;
        }

        // Quicker than three blocks the line is the jump over them: the true rate is at least that.
        double slope = until - left >= 3 ? trace.Slope(left, until) : (trace[Math.Min(left + 2, release - 1)] - staticPa) / (3 * LevelTrace.BlockS);
        int settled = Math.Max(left, release - LevelTrace.Blocks(SettledS));
        double endPa = trace.Mean(settled, Math.Max(settled + 1, release));
        bool rests = Math.Abs(trace.Slope(Math.Max(left, settled - LevelTrace.Blocks(SettledS)), release)) < 0.1 * Math.Abs(slope);
        ShutVerdict verdict = !rises ? ShutVerdict.WasteValveLeaks : rests && endPa < NearVessel * expected.DeliveryPa ? ShutVerdict.BothLeak : ShutVerdict.DeliveryValveLeaks;
        var evidence = new List<Fact>
        {
            rises
                ? Fact.Of("check-shut-rose",
                    ("from_kpa", staticPa / 1000), ("to_kpa", endPa / 1000), ("slope_kpa_per_s", slope / 1000), ("vessel_kpa", expected.DeliveryPa / 1000))
                : Fact.Of("check-shut-fell", ("from_kpa", staticPa / 1000), ("to_kpa", endPa / 1000), ("slope_kpa_per_s", -slope / 1000)),
        };
        double? leak = giveM3PerPa * Math.Abs(slope);
        if (leak is { } flow)
        {
            double usual = 0.5 * (expected.Ram.DeliveredM3PerS.Low + expected.Ram.DeliveredM3PerS.High);
            evidence.Add(Fact.Of("check-shut-leak", ("leak_l_per_min", flow * 60_000), ("share", flow / usual)));
        }

        return new ShutResult(verdict, evidence) { StaticPa = staticPa, SlopePaPerS = slope, EndPa = endPa, LeastLeakM3PerS = leak };
    }

    private static double GiveM3PerPa(RamSite site, ExpectedFigures expected) => expected.Hydraulics.Sections.Sum(
        s => s.Reach.AreaM2 * s.Reach.LengthM / (expected.Hydraulics.Water.DensityKgPerM3 * s.Reach.WaveSpeedMPerS * s.Reach.WaveSpeedMPerS));

    private static ShutResult Unclear(Fact why) => new(ShutVerdict.Unclear, [why]);
}
