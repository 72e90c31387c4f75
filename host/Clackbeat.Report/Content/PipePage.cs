using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Words;

namespace Clackbeat.Report.Content;

/// <summary>The part of the report that answers "is the drive pipe safe?": verdict, pictures, tables, what would help.</summary>
internal sealed class PipePage(RamAnalysis analysis, Gallery gallery, TwinPart? twin)
{
    private PipeCheck Pipe => analysis.Pipe;

    public Section Make() => new("pipe", Phrases.Say("report.drive-pipe-safe"),
    [
        Verdict(),
        .. FatigueVerdict(),
        .. gallery.Ladder(),
        .. gallery.Load(),
        Figures(),
        .. Parts(),
        .. Fatigue(),
        .. RemedyBlocks.Of(twin, Pipe),
        .. Lists(),
        new Paragraph(ReportWords.RecurringLoad),
        new Paragraph(ReportWords.PipeDefers),
    ]);

    private Callout Verdict()
    {
        Tone tone = Pipe.Verdict switch
        {
            PipeVerdict.Within => Tone.Well,
            PipeVerdict.Near => Tone.Look,
            PipeVerdict.Over => Tone.Stop,
            _ => Tone.Plain,
        };
        return new Callout(tone, ReportWords.PipeHeading(Pipe.Verdict),
        [
            .. PipeWords.Verdict(Pipe).Select(Show.Of),
            Rich.Say("report.rule", ("rule", PipeWords.Rule(Pipe))),
        ]);
    }

    // A verdict of its own: the curves for a plastic pipe span decades, and would drown what the pressure says.
    private IEnumerable<Block> FatigueVerdict()
    {
        if (Pipe.Fatigue is not { } fatigue)
        {
            yield break;
        }

        Tone tone = fatigue.Verdict switch
        {
            PipeVerdict.Within => Tone.Well,
            PipeVerdict.Over => Tone.Stop,
            _ => Tone.Plain,
        };
        string rule = FatigueWords.Rule(fatigue, Pipe.DesignLifeYears);
        yield return new Callout(tone, ReportWords.FatigueHeading(fatigue),
        [
            .. PipeWords.Fatigue(Pipe).Select(Show.Of),
            .. rule.Length > 0 ? (IReadOnlyList<Rich>)[Rich.Say("report.rule", ("rule", rule))] : [],
        ]);
    }

    private Table Figures() => new(Phrases.Say("report.pipe-against-load"), [Phrases.Say("report.figure"), Phrases.Say("report.value")],
    [
        new TableGroup(Phrases.Say("report.what-may-bear"),
        [
            Row(Phrases.Say("report.rating"), ReportWords.Capital(PipeWords.Source(Pipe.Source)), Pressure(Pipe.RatedPa)),
            Row(Phrases.Say("report.factor-temperature"), "", Digits.Significant(Pipe.TemperatureFactor, 2)),
            Row(Phrases.Say("report.factor-threads"), "", Digits.Significant(Pipe.JointFactor, 2)),
            Row(Phrases.Say("report.factor-rule-recurring-surges"), "", Digits.Significant(Pipe.RecurringFactor, 2)),
            Row(Phrases.Say("report.allowed-again-again"), Phrases.Say("report.rating-times-these-factors"), Pressure(Pipe.AllowablePa)),
        ]),
        new TableGroup(Phrases.Say("report.what-meets"),
        [
            Row(Phrases.Say("report.hard-peaks"), Phrases.Say("report.estimated-peak-one-beat-twenty"), Pressure(Pipe.PeakPa, Pipe.PeakUncertaintyPa)),
            Row(Phrases.Say("report.margin"), Phrases.Say("report.allowed-over-peak-above-1"), Pipe.Margin is { } margin ? Digits.Significant(margin, 2) : ReportWords.NotGiven),
            Row(Phrases.Say("report.ceiling"), ReportWords.Ceiling(Pipe), Pressure(Pipe.CeilingPa, Pipe.CeilingUncertaintyPa)),
            Row(Phrases.Say("report.deepest-suction"), "", Pressure(Pipe.TroughPa)),
            Row(Phrases.Say("report.above-boiling-cold"), Phrases.Say("report.how-far-deepest-suction-stays"), Pressure(Pipe.Suction?.VapourMarginPa)),
            Row(Phrases.Say("report.suction-makes-wall-buckle"), Phrases.Say("report.perfectly-round-pipe-twice-suction"), Pressure(Pipe.Suction?.CollapsePa)),
            Row(Phrases.Say("report.beats-year"), Phrases.Say("report.years-running-hours"), Pipe.Fatigue?.BeatsPerYear is { } beats ? ReportWords.Millions(beats) : ReportWords.NotGiven),
            Row(Phrases.Say("report.noise-left-out-count"), Phrases.Say("report.swings-no-larger-than-counted"), Pressure(analysis.Load?.HysteresisPa)),
        ]),
    ]);

    private IEnumerable<Block> Parts()
    {
        if (Pipe.Fittings.Count == 0)
        {
            yield break;
        }

        yield return new Table(Phrases.Say("report.every-part-weakest-first"), [Phrases.Say("report.part"), Phrases.Say("report.may-bear"), Phrases.Say("report.verdict")],
        [
            new TableGroup(null, [.. Pipe.Fittings.Select(f => new TableRow(
                ReportWords.PartName(f.Name), Rich.Empty, [Pressure(f.AllowablePa), ReportWords.PipeVerdictWord(f.Verdict)]))]),
        ]);
        if (Pipe.Fittings.Count == 1)
        {
            yield return new Paragraph(ReportWords.NoFittings);
        }
    }

    private IEnumerable<Block> Fatigue()
    {
        if (Pipe.Fatigue is not { Coverage: FatigueCoverage.Life } fatigue)
        {
            yield break;
        }

        var rows = fatigue.Curves.Select(c => new TableRow(ReportWords.CurveName(c.Name), ReportWords.CurveSource(c.Source),
        [
            c.LifeYears is { } years ? ReportWords.Years(years) : Phrases.Say("report.no-harm-curve"),
            c.BeyondTested ? Phrases.Say("report.beyond-any-test") : Phrases.Say("report.within-tests"),
        ])).ToList();
        rows.Add(new TableRow(Phrases.Say("report.taken-together"), ReportWords.Outcomes(fatigue.Outcomes, Pipe.DesignLifeYears),
        [
            ReportWords.Life(fatigue.Life!),
            fatigue.BeyondTested ? Phrases.Say("report.partly-beyond-any-test") : Phrases.Say("report.within-tests"),
        ]));
        yield return new Table(Phrases.Say("report.fatigue-curve-curve"), [Phrases.Say("report.curve"), Phrases.Say("report.life-running"), Phrases.Say("report.cycles-rests")], [new TableGroup(null, rows)]);
    }

    private IEnumerable<Block> Lists()
    {
        if (Pipe.Notes.Count > 0)
        {
            yield return new Bullets([.. PipeWords.Notes(Pipe).Select(Show.Of)]);
        }

        if (Pipe.Alternatives.Count > 0)
        {
            yield return new Paragraph(Phrases.Say("report.what-other-sources-rules-would"));
            yield return new Bullets([.. Pipe.Alternatives.Select(a => Pressure(a.AllowablePa).Then(Rich.Of($"– {PipeWords.Basis(a)}")))]);
        }
    }

    private static TableRow Row(string name, string meaning, Rich value) =>
        new(name, meaning.Length > 0 ? meaning : Rich.Empty, [value]);

    private static Rich Pressure(double? pascal, double? u = null)
    {
        Measure? written = pascal is { } p && u is > 0 and { } margin
            ? Show.Of(Kind.Pressure, new Figure(p, margin))
            : Show.Of(Kind.Pressure, pascal);
        return written is { } w ? w : ReportWords.NotGiven;
    }
}
