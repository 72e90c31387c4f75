using AngleSharp.Dom;
using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Plots;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;

namespace Clackbeat.Report.Tests;

public sealed class PipePageSpecs
{
    private static readonly RemedyTable Remedies = new(
        Row(RemedyCode.AsItIs, 4e5), [Row(RemedyCode.LighterValve, 3e5)], [(new RemedyChange(RemedyCode.ShorterStroke), RemedyLack.Time)], 3);

    [Fact]
    public void The_page_shows_the_verdict_its_rule_and_both_pictures()
    {
        IElement page = Page(Analysis());
        Assert.Contains("Within its limit", page.Said(), StringComparison.Ordinal);
        Assert.Contains("Rule: AWWA C900", page.Said(), StringComparison.Ordinal);
        Assert.Contains("Fatigue: replace the pipe", page.Said(), StringComparison.Ordinal);
        Assert.Contains("Rule: Fatigue of PVC-U: rainflow count (ASTM E1049-85)", page.Said(), StringComparison.Ordinal);
        Assert.NotNull(page.QuerySelector("#plot-levels svg"));
        Assert.NotNull(page.QuerySelector("#plot-swings svg"));
        foreach (string axis in (string[])["Share of the time", "Gauge pressure (bar)", "psi"])
        {
            Assert.Contains(axis, page.QuerySelector("#plot-levels svg.wide").Said(), StringComparison.Ordinal);
        }

        foreach (string axis in (string[])["Size of the swing (bar)", "Middle of the swing, gauge (bar)", "psi", "swings an hour"])
        {
            Assert.Contains(axis, page.QuerySelector("#plot-swings svg.wide").Said(), StringComparison.Ordinal);
        }
    }

    // 9 bar are 130.5 psi, 0.4 bar 5.8 psi (NIST SP 811).
    [Fact]
    public void A_sentence_of_the_rating_follows_the_unit_switch()
    {
        IElement callout = Page(Analysis()).QuerySelector(".callout")!;
        Assert.Contains("9.0 ± 0.4 bar", callout.QuerySelector(".m").Said(), StringComparison.Ordinal);
        Assert.Contains("131 ± 6 psi", callout.QuerySelector(".us").Said(), StringComparison.Ordinal);
        foreach (IElement unit in callout.QuerySelectorAll(".us").ToList())
        {
            unit.Remove();
        }

        Assert.DoesNotContain("psi", callout.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_part_is_listed_the_weakest_first()
    {
        string[] parts = [.. Rows(Page(Analysis()), "Every part, the weakest first").Select(r => r.QuerySelector("th").Said())];
        Assert.Equal(["rubber hose", "drive pipe", "old valve"], parts);
    }

    [Fact]
    public void Ceiling_suction_and_folding_stand_beside_the_peak()
    {
        string[] figures = [.. Rows(Page(Analysis()), "The pipe against its load").Select(r => r.Said())];
        Assert.Contains(figures, f => f.StartsWith("Ceiling", StringComparison.Ordinal) && f.Contains("12 ± 3 bar", StringComparison.Ordinal));
        Assert.Contains(figures, f => f.StartsWith("Above boiling in the cold", StringComparison.Ordinal));
        Assert.Contains(figures, f => f.StartsWith("Suction that makes the wall buckle", StringComparison.Ordinal));
    }

    [Fact]
    public void Each_curve_says_its_life_and_whether_it_was_tested()
    {
        List<IElement> rows = Rows(Page(Analysis()), "Fatigue, curve by curve");
        Assert.Equal(5, rows.Count);
        Assert.Contains("combinations of curve, load and sum at failure", rows[^1].Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_would_help_is_a_table_of_before_and_after()
    {
        IElement page = Page(Analysis(), Remedies);
        string[] rows = [.. Rows(page, "What would help").Select(r => r.Said())];
        Assert.Equal(2, rows.Length);
        Assert.Contains("4.00 ± 0.20 bar", rows[0], StringComparison.Ordinal);
        Assert.Contains("3.00 ± 0.20 bar", rows[1], StringComparison.Ordinal);
        Assert.Equal(2, Rows(page, "What it would do to the water").Count);
        Assert.Contains("Left out for want of time", page.Said(), StringComparison.Ordinal);
        Assert.DoesNotContain("What would help", Page(Analysis()).Said(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(2e5)]
    [InlineData(9.5e5)]
    [InlineData(20e5)]
    [InlineData(900e5)]
    public void The_pictures_can_be_drawn_wherever_the_limit_lies(double allowedPa)
    {
        RamAnalysis analysis = Analysis();
        var input = new PlotInput(MadeUpRam.Site(), analysis with { Pipe = analysis.Pipe with { AllowablePa = allowedPa } }, null);
        foreach (Frame frame in (Frame[])[Frame.Wide, Frame.Narrow, Frame.Paper])
        {
            Assert.Contains("<svg", LevelPlot.Draw(input, frame).GetSvgXml(frame.Width, frame.Height), StringComparison.Ordinal);
            Assert.Contains("<svg", RainflowPlot.Draw(input, frame).GetSvgXml(frame.Width, frame.Height), StringComparison.Ordinal);
        }
    }

    private static RamAnalysis Analysis()
    {
        (double[] t, double[] p, List<Beat> beats) = MadeUpRam.Trace(20);
        var cycles = new RainflowHistogram(-1.1e5, 11e5, 400);
        var counter = new RainflowCounter(cycles.Add, 1000);
        long[] levels = new long[400];
        foreach (double pressure in p)
        {
            counter.Add(pressure);
            levels[(int)((pressure + 1.1e5) / (12.1e5 / 400))]++;
        }

        counter.Finish();
        double beatingS = beats.Sum(b => b.IntervalS);
        return MadeUpRam.Bare(t, p, beats) with
        {
            Load = new LoadHistory
            {
                Cycles = cycles,
                BeatingS = beatingS,
                LowPa = -1.1e5,
                LevelPa = 12.1e5 / 400,
                SamplesAtLevel = levels,
                NoisePa = 200,
                HysteresisPa = 1200,
            },
            Pipe = PipeRating.Check(new PipeLoad
            {
                Material = PipeMaterial.PvcU,
                BoreM = 0.0525,
                WallM = 0.0039,
                Joint = PipeJoint.Plain,
                PeakPa = 9e5,
                PeakUncertaintyPa = 0.4e5,
                TroughPa = -0.3e5,
                BeatsPerMin = 60,
                CeilingPa = 12e5,
                CeilingUncertaintyPa = 3e5,
                Fittings = [new RatedFitting("rubber hose", 16e5), new RatedFitting("old valve", null)],
            }),
        };
    }

    private static IElement Page(RamAnalysis analysis, RemedyTable? remedies = null) =>
        Reports.Page(analysis, remedies: remedies).QuerySelector("#pipe")!;

    private static List<IElement> Rows(IElement page, string caption) =>
    [
        .. page.QuerySelectorAll("table").Single(t => t.QuerySelector("caption").Said() == caption)
            .QuerySelectorAll("tbody tr:not(.group)"),
    ];

    private static Remedy Row(RemedyCode change, double peakPa) => new()
    {
        Change = new RemedyChange(change),
        PeakPa = new Estimate(peakPa, 0.2e5),
        Margin = new Estimate(5, 0.3),
        LifeYears = new FatigueLife(3, 0.2, 40),
        DeliveredM3PerS = new Estimate(1e-4, 1e-6),
        WasteM3PerS = new Estimate(1e-3, 1e-5),
        BeatsPerMin = new Estimate(60, 1),
        Verdict = PipeVerdict.Over,
    };
}
