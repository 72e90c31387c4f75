using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.States;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>
/// The beats found against the closures of the virtual ram, which solves the motion of the valves and knows nothing of
/// the detector.
/// </summary>
public class VirtualRamBeatTests
{
    public static TheoryData<string, double, double, RamCharacter> Rates()
    {
        var data = new TheoryData<string, double, double, RamCharacter>();
        foreach (string ram in (string[])["steel", "pvc", "polyethylene"])
        {
            foreach (double rateHz in (double[])[500, 1000, 2000])
            {
                data.Add(ram, rateHz, 1, RamCharacter.Smooth);
                data.Add(ram, rateHz, 5, RamCharacter.Lively);
            }
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Rates))]
    public void Every_closure_is_found_at_any_rate_smooth_or_lively_and_under_noise(string ram, double rateHz, double noise, RamCharacter character)
    {
        RamSite site = Of(ram);
        (double[] timesS, double[] pressuresPa, List<VirtualBeat> truth) = Rams.Record(site, 20, rateHz, noise, character: character);
        RamAnalysis found = Rhythm(site, timesS, pressuresPa);
        Assert.True(truth.Count > 5, "the virtual ram beats");
        Assert.InRange(found.Beats.Count, truth.Count - 1, truth.Count + 1);

        // The rate is that of the steady part, so the truth is taken over the same beats.
        SteadySpan steady = found.Beats.Steady!;
        double rate = 60 / truth.Where(b => b.ClosureS > steady.FromS - 0.01 && b.ClosureS < steady.UntilS - 0.01).Average(b => b.IntervalS);
        Assert.InRange(found.Beats.RatePerMin!.Value.Value, 0.997 * rate, 1.003 * rate);
        Assert.True(ShareWithin(found, truth, 0.003) >= 0.95, "19 closures in 20 lie within 3 ms");
        Assert.Equal(RamState.Beating, found.State);
    }

    [Fact]
    public void A_sensor_that_reads_wrong_by_a_fifth_of_a_bar_changes_no_beat()
    {
        (double[] timesS, double[] pressuresPa, List<VirtualBeat> _) = Rams.Record(Rams.Steel, 20);
        RamAnalysis right = Rhythm(Rams.Steel, timesS, pressuresPa);
        RamAnalysis wrong = Rhythm(Rams.Steel, timesS, [.. pressuresPa.Select(p => p + 20_000)]);
        Assert.Equal(right.BeatList.Select(b => b.ClosureS), wrong.BeatList.Select(b => b.ClosureS), Near(1e-6));
    }

    [Fact]
    public void Streaming_in_any_chunks_gives_the_same_as_the_whole()
    {
        (double[] timesS, double[] pressuresPa, List<VirtualBeat> _) = Rams.Record(Rams.Pvc, 25, character: RamCharacter.Lively);
        RamAnalysis whole = Rams.Analyse(Rams.Pvc, timesS, pressuresPa);
        var random = new Random(5);
        for (int run = 0; run < 3; run++)
        {
            var analyser = new RamAnalyser(Rams.Pvc);
            for (int from = 0; from < timesS.Length;)
            {
                int to = Math.Min(from + random.Next(1, 3000), timesS.Length);
                analyser.Add(timesS.AsSpan(from, to - from), pressuresPa.AsSpan(from, to - from));
                from = to;
            }

            RamAnalysis pieces = analyser.Finish("a record of the tests");
            Assert.Equal(whole.BeatList, pieces.BeatList);
            Assert.Equal(whole.Pressure, pieces.Pressure);
        }
    }

    // Chains of beats end and begin between and within lots; the longer ones last beyond all that a detector keeps.
    [Theory]
    [InlineData(9, 7)]
    [InlineData(25, 200)]
    [InlineData(100, 0)]
    public void A_detector_finds_the_same_in_lots_of_any_size_as_sample_by_sample(int standstillS, double gapS)
    {
        (double[] timesS, double[] pressuresPa, List<VirtualBeat> _) = Rams.Record(Rams.Steel, 60, character: RamCharacter.Lively);
        double[] still = [.. Enumerable.Repeat(pressuresPa[30_000], 1000 * standstillS)];
        pressuresPa = [.. pressuresPa[..30_000], .. still, .. pressuresPa[30_000..]];
        double stepS = timesS[1] - timesS[0];
        timesS = [.. Enumerable.Range(0, pressuresPa.Length).Select(i => (i * stepS) + (i >= 30_000 + still.Length ? gapS : 0))];
        List<Beat> single = [];
        BeatDetector one = DetectorInto(single);
        for (int i = 0; i < timesS.Length; i++)
        {
            one.Add(timesS[i], pressuresPa[i]);
        }

        one.Finish();
        Assert.Contains(single, b => b.NextClosureS < 30);
        Assert.Contains(single, b => b.ClosureS > 30 + standstillS + gapS);
        foreach (int chunk in new[] { 1, 7, 1024, 30_000, timesS.Length })
        {
            List<Beat> lots = [];
            BeatDetector many = DetectorInto(lots);
            for (int from = 0; from < timesS.Length; from += chunk)
            {
                int to = Math.Min(from + chunk, timesS.Length);
                many.Add(timesS.AsSpan(from..to), pressuresPa.AsSpan(from..to));
            }

            many.Finish();
            Assert.Equal(single, lots);
        }
    }

    [Theory]
    [InlineData(RamCondition.StoppedShut, RamState.StoppedShut)]
    [InlineData(RamCondition.StoppedOpen, RamState.StoppedOpen)]
    public void A_silent_ram_is_told_apart_by_where_its_valve_stands(RamCondition condition, RamState expected)
    {
        (double[] timesS, double[] pressuresPa, List<VirtualBeat> _) = Rams.Record(Rams.Steel, 30, fault: new Fault { Condition = condition, Severity = 1 });
        Assert.Equal(expected, Rhythm(Rams.Steel, timesS, pressuresPa).State);
    }

    [Fact]
    public void Beats_around_a_hole_in_the_record_are_whole_beats_only()
    {
        (double[] timesS, double[] pressuresPa, List<VirtualBeat> truth) = Rams.Record(Rams.Steel, 30);
        bool[] kept = [.. timesS.Select(t => t is < 10.2 or > 13.1)];
        RamAnalysis found = Rhythm(
            Rams.Steel, [.. timesS.Where((_, i) => kept[i])], [.. pressuresPa.Where((_, i) => kept[i])]);
        Gap gap = Assert.Single(found.Input.Gaps);
        Assert.InRange(gap.LengthS, 2.89, 2.92);
        Assert.All(found.BeatList, b => Assert.False(b.ClosureS < 10.2 && b.NextClosureS > 13.1));
        double usualS = truth.Average(b => b.IntervalS);
        Assert.All(found.BeatList, b => Assert.InRange(b.IntervalS, 0.9 * usualS, 1.1 * usualS));
    }

    private static RamSite Of(string ram) => ram switch
    {
        "steel" => Rams.Steel,
        "pvc" => Rams.Pvc,
        _ => Rams.Polyethylene,
    };

    // Beats are found before any flow is measured, and none of these tests asks for one.
    private static RamAnalysis Rhythm(RamSite site, double[] timesS, double[] pressuresPa) => Rams.Analyse(site, timesS, pressuresPa, measuresFlow: false);

    private static double ShareWithin(RamAnalysis found, List<VirtualBeat> truth, double withinS) =>
        truth.Average(t => found.BeatList.Min(b => Math.Abs(b.ClosureS - t.ClosureS)) < withinS ? 1.0 : 0);

    private static EqualityComparer<double> Near(double within) =>
        EqualityComparer<double>.Create((a, b) => Math.Abs(a - b) <= within, _ => 0);

    private static BeatDetector DetectorInto(List<Beat> beats)
    {
        var hydraulics = SiteHydraulics.Of(Rams.Steel);
        var scale = new RamScale(
            hydraulics.PressurePa(Rams.Steel.Supply.HeadM), hydraulics.PressurePa(Rams.Steel.Delivery.HeadM), hydraulics.PipePeriodS);
        return new BeatDetector(scale, window => beats.Add(window.Beat));
    }
}
