using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Export;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;

namespace Clackbeat.Report.Content;

/// <summary>The part of the report that answers "is the drive pipe safe?": verdict, pictures, tables, what would help.</summary>
internal sealed class PipePage(RamAnalysis analysis, Gallery gallery, RemedyTable? remedies)
{
    private PipeCheck Pipe => analysis.Pipe;

    public Section Make() => new("pipe", "Is the drive pipe safe?",
    [
        Verdict(),
        .. gallery.Ladder(),
        .. gallery.Load(),
        Figures(),
        .. Parts(),
        .. Fatigue(),
        .. RemedyBlocks.Of(remedies, Pipe),
        .. Lists(),
        new Paragraph(Words.RecurringLoad),
        new Paragraph(Words.PipeDefers),
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
        return new Callout(tone, Words.PipeHeading(Pipe.Verdict),
        [
            .. Pipe.Explanation.Select(Show.Of),
            .. Pipe.Rule.Length > 0 ? (IReadOnlyList<Rich>)[Rich.Of($"Rule: {Pipe.Rule}.")] : [],
        ]);
    }

    private Table Figures() => new("The pipe against its load", ["Figure", "Value"],
    [
        new TableGroup("What it may bear",
        [
            Row("Rating", Pipe.RatingSource, Pressure(Pipe.RatedPa)),
            Row("Factor for temperature", "", Digits.Significant(Pipe.TemperatureFactor, 2)),
            Row("Factor for threads", "", Digits.Significant(Pipe.JointFactor, 2)),
            Row("Factor of the rule for recurring surges", "", Digits.Significant(Pipe.RecurringFactor, 2)),
            Row("Allowed again and again", "The rating times these factors.", Pressure(Pipe.AllowablePa)),
        ]),
        new TableGroup("What it meets",
        [
            Row("Hard peaks", "Estimated true peak of one beat in twenty, with what sampling and sensor leave open.", Pressure(Pipe.PeakPa, Pipe.PeakUncertaintyPa)),
            Row("Margin", "Allowed over peak: above 1 is room.", Pipe.Margin is { } margin ? Digits.Significant(margin, 2) : Words.NotGiven),
            Row("Ceiling", Words.Ceiling(Pipe), Pressure(Pipe.CeilingPa, Pipe.CeilingUncertaintyPa)),
            Row("Deepest suction", "", Pressure(Pipe.TroughPa)),
            Row("Above boiling in the cold", "How far the deepest suction stays above vapour pressure.", Pressure(Pipe.Suction?.VapourMarginPa)),
            Row("Suction that folds the wall", "For a perfectly round pipe; twice the suction is asked for.", Pressure(Pipe.Suction?.CollapsePa)),
            Row("Beats in a year", "At the year's running hours.", Pipe.Fatigue?.BeatsPerYear is { } beats ? Words.Millions(beats) : Words.NotGiven),
            Row("Noise left out of the count", "Swings no larger than this are not counted as load.", Pressure(analysis.Load?.HysteresisPa)),
        ]),
    ]);

    private IEnumerable<Block> Parts()
    {
        if (Pipe.Fittings.Count == 0)
        {
            yield break;
        }

        yield return new Table("Every part, the weakest first", ["Part", "May bear", "Verdict"],
        [
            new TableGroup(null, [.. Pipe.Fittings.Select(f => new TableRow(
                f.Name, Rich.Empty, [Pressure(f.AllowablePa), ContractNames.Of(f.Verdict)]))]),
        ]);
        if (Pipe.Fittings.Count == 1)
        {
            yield return new Paragraph(Words.NoFittings);
        }
    }

    private IEnumerable<Block> Fatigue()
    {
        if (Pipe.Fatigue is not { Coverage: FatigueCoverage.Life } fatigue)
        {
            yield break;
        }

        var rows = fatigue.Curves.Select(c => new TableRow(c.Name, c.Source,
        [
            c.LifeYears is { } years ? Words.Years(years) : "no harm by this curve",
            c.BeyondTested ? "beyond any test" : "within the tests",
        ])).ToList();
        rows.Add(new TableRow("Taken together", Words.Outcomes(fatigue.Outcomes, Pipe.DesignLifeYears),
        [
            Words.Life(fatigue.Life!),
            fatigue.BeyondTested ? "partly beyond any test" : "within the tests",
        ]));
        yield return new Table("Fatigue, curve by curve", ["Curve", "Life of running", "Cycles it rests on"], [new TableGroup(null, rows)]);
    }

    private IEnumerable<Block> Lists()
    {
        if (Pipe.Notes.Count > 0)
        {
            yield return new Bullets([.. Pipe.Notes.Select(Show.Of)]);
        }

        if (Pipe.Alternatives.Count > 0)
        {
            yield return new Paragraph("What other sources or rules would allow:");
            yield return new Bullets([.. Pipe.Alternatives.Select(a => Pressure(a.AllowablePa).Then(Rich.Of($"– {a.Basis}")))]);
        }
    }

    private static TableRow Row(string name, string meaning, Rich value) =>
        new(name, meaning.Length > 0 ? meaning : Rich.Empty, [value]);

    private static Rich Pressure(double? pascal, double? u = null)
    {
        Measure? written = pascal is { } p && u is > 0 and { } margin
            ? Show.Of(Kind.Pressure, new Figure(p, margin))
            : Show.Of(Kind.Pressure, pascal);
        return written is { } w ? w : Words.NotGiven;
    }
}
