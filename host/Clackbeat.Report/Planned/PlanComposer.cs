using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Planning.Plans;
using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Planned;

/// <summary>Decides what the page of a plan holds: first what to buy and what it gives.</summary>
internal sealed class PlanComposer(RamPlan plan, Units units, DateTimeOffset made)
{
    private const double LitresPerMinute = 60_000;
    private const double Bar = 1e5;

    private readonly RamChoice _best = plan.Choices[0];
    private readonly PlanTables _tables = new(plan);

    public ReportContent Make()
    {
        Section?[] sections =
        [
            new("figures", Phrases.Say("plan.gives"), [Tiles()]),
            new("profile", Phrases.Say("plan.lies"), [Profile()]),
            new("buy", Phrases.Say("plan.buy"), [_tables.Bill()]),
            _tables.HasMonths ? new("months", Phrases.Say("plan.by-month"), [_tables.Months()]) : null,
            plan.Wish.Uses.Count > 0 ? new("need", Phrases.Say("plan-page.needed"), [Told([.. plan.Wish.Uses.Select(u => u.Fact)])]) : null,
            plan.Choices.Count > 1 ? new("ways", Phrases.Say("plan.ways"), [_tables.Ways()]) : null,
            new("others", Phrases.Say("plan.others"), [.. Others()]),
            new("why", Phrases.Say("plan.why"), [Told(_best.Reasons)]),
            new("know", Phrases.Say("plan.know"), [Told([.. plan.Remarks, .. plan.WouldChange])]),
            new("caution", Phrases.Say("plan.before"), [new Callout(Tone.Look, Phrases.Say("plan.caution"), [.. Cautions.All.Select(PlanWords.Of)])]),
        ];
        Rich source = Say(
            "plan.source", ("head_m", plan.Wish.SupplyHeadM), ("flow_l_per_min", LitresPerMinute * plan.Wish.SupplyFlowM3PerS), ("lift_m", plan.Wish.LiftM),
            ("date", Dates.Day(DateOnly.FromDateTime(made.Date))));
        return new ReportContent(Phrases.Say("plan.title"), PlanWords.In(source, units), Verdict(), [.. sections.OfType<Section>()])
        {
            Units = units,
            Kind = Phrases.Say("plan.kind"),
        };
    }

    private Verdict Verdict()
    {
        bool sound = _best.Pipe.Verdict != PipeVerdict.Over && plan.Enough is not { ShortMonths.Count: > 0 };
        return new Verdict(
            sound ? Tone.Well : Tone.Look,
            Phrases.Say("plan.buy"),
            PlanWords.Of(PlanHeadline.Of(_best)),
            [.. PlanHeadline.Enough(plan.Enough).Select(PlanWords.Of), PlanWords.Of(plan.Remarks[0])]);
    }

    private Tiles Tiles() => new(
    [
        new(Phrases.Say("plan.delivered"), Span(Kind.Flow, _best.DeliveredM3PerS), PlanWords.Of(PlanHeadline.Daily(_best))),
        new(
            Phrases.Say("plan.driest"), _best.DryDeliveredM3PerS.High > 0 ? Span(Kind.Flow, _best.DryDeliveredM3PerS) : Measure.Same(Phrases.Say("plan.nothing")),
            plan.Wish.LeastFlowM3PerS < plan.Wish.SupplyFlowM3PerS
                ? Say("plan.spring-gives", ("flow_l_per_min", LitresPerMinute * plan.Wish.LeastFlowM3PerS))
                : Phrases.Say("plan.no-dry-flow")),
        new(Phrases.Say("plan.highest"), Span(Kind.Pressure, _best.PeakPa), _best.Pipe.AllowablePa is { } allowedPa
            ? Say("plan.pipe-takes", ("allowed_bar", allowedPa / Bar))
            : Phrases.Say("plan.in-drive-pipe")),
        new(Phrases.Say("plan.beats"), Span(Kind.Rate, _best.BeatsPerMin), Phrases.Say("plan.setting")),
    ]);

    private PictureBlock Profile()
    {
        double times = ProfilePlot.Exaggeration(_best);
        Rich caption = times > 1 ? Phrases.Say("plan.profile-larger", ("times", times)) : Phrases.Say("plan.profile-to-scale");
        string alt = PlanWords.In(
            Say(
                "plan.profile-alt", ("head_m", plan.Wish.SupplyHeadM), ("lift_m", plan.Wish.LiftM), ("length_m", _best.Length.LengthM),
                ("main_m", _best.Main.LengthM)),
            units);
        return new PictureBlock(new Drawing("profile-drawing", Phrases.Say("plan.profile"), alt, caption, frame => ProfilePlot.Draw(_best, frame))
        {
            Height = 0.85,
            PaperHeight = 0.7,
        });
    }

    private IEnumerable<Block> Others()
    {
        yield return new Paragraph(Phrases.Say("plan.others-caption"));
        yield return _tables.Others();
        if (_tables.HasMonths)
        {
            yield return _tables.OthersByMonth();
        }

        yield return Told([.. plan.Alternatives.SelectMany(a => a.Assumptions).DistinctBy(f => f)]);
    }

    private static Bullets Told(IReadOnlyList<Fact> facts) => new([.. facts.Select(PlanWords.Of)]);

    private static Rich Say(string key, params FactValue[] values) => PlanWords.Of(new Fact(key, values));

    // The ends of a band, not a middle with its ±: nobody knows that the middle is the likeliest.
    private static Measure Span(Kind kind, Band band)
    {
        Measure low = Show.Of(kind, band.Low, 2)!.Value;
        Measure high = Show.Of(kind, band.High, 2)!.Value;
        return new Measure(Between(low.Metric, high.Metric), Between(low.Us, high.Us));
    }

    private static MeasureText Between(MeasureText low, MeasureText high) =>
        high with { Value = Phrases.Say("plan.between", ("low", low.Value), ("high", high.Value)) };
}
