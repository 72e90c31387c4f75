using Clackbeat.Hydraulics;
using Clackbeat.Planning.Plans;
using Clackbeat.Report.Content;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Planned;

/// <summary>A plan as a person reads it on a screen: the page's tables and sentences as text, in one system of units.</summary>
/// <param name="plan">The plan; at least one choice.</param>
/// <param name="units">The reader's units.</param>
public sealed class PlanScreen(RamPlan plan, Units units)
{
    private const double Bar = 1e5;

    private readonly RamChoice _best = plan.Choices[0];
    private readonly PlanTables _tables = new(plan);

    /// <summary>What to buy, what it gives, and whether it is enough.</summary>
    public IReadOnlyList<string> Headline => PlanWords.Say([PlanHeadline.Of(_best), .. PlanHeadline.Enough(plan.Enough)], units);

    /// <summary>The main figures, name and value.</summary>
    public IReadOnlyList<(string Name, string Value)> Figures =>
    [
        (Phrases.Say("plan.delivered"), Span(QuantityKind.Flow, _best.DeliveredM3PerS)),
        (Phrases.Say("plan.driest"), _best.DryDeliveredM3PerS.High > 0 ? Span(QuantityKind.Flow, _best.DryDeliveredM3PerS) : Phrases.Say("plan.nothing")),
        (Phrases.Say("plan.beats"), Phrases.Say("plan.beats-a-minute", ("low", _best.BeatsPerMin.Low), ("high", _best.BeatsPerMin.High))),
        (Phrases.Say("plan.highest"), Span(QuantityKind.Pressure, _best.PeakPa)),
        (Phrases.Say("plan.pipe-withstands"), _best.Pipe.AllowablePa is { } allowedPa
            ? Say("plan.again-and-again", ("allowed_bar", allowedPa / Bar), ("verdict", PipeWords.Brief(_best.Pipe.Verdict)))
            : Phrases.Say("plan.not-known")),
        (Phrases.Say("plan.main"), Say(
            "plan.main-is", ("length_m", _best.Main.LengthM), ("material", PlanFacts.Material(_best.Main.Material)), ("class", _best.Main.Class),
            ("size", _best.Main.Size))),
        (Phrases.Say("plan.air-vessel"), Say("plan.vessel-is", ("volume_l", 1000 * _best.AirVesselM3))),
    ];

    /// <summary>Everything else, part by part.</summary>
    public IReadOnlyList<ScreenPart> Parts
    {
        get
        {
            ScreenPart?[] parts =
            [
                Rows("plan.ways-screen", _tables.Ways()),
                Rows("plan.buy", _tables.Bill()),
                _tables.HasMonths ? Rows("plan.by-month", _tables.Months()) : null,
                plan.Wish.Uses.Count > 0 ? Told("plan-page.needed", [.. plan.Wish.Uses.Select(u => u.Fact)]) : null,
                Told("plan.why", _best.Reasons),
                Told("plan.know", [.. plan.Remarks, .. plan.WouldChange]),
                new(Phrases.Say("plan.others"), [], [], [.. plan.Alternatives.Select(a =>
                    $"{Phrases.Say($"plan.{a.Code}")}: {PlanWords.Say(PlanHeadline.Of(a), units)}")]),
                Told("plan.caution", Cautions.All),
            ];
            return [.. parts.OfType<ScreenPart>()];
        }
    }

    private ScreenPart Told(string title, IReadOnlyList<Fact> facts) => new(Catalogue.Current.Say(title), [], [], PlanWords.Say(facts, units));

    private ScreenPart Rows(string title, Table table) => new(
        Catalogue.Current.Say(title), table.Heads,
        [.. table.Groups.SelectMany(g => g.Rows).Select(r => (IReadOnlyList<string>)
            [Named(r), .. r.Cells.Select(c => PlanWords.In(c, units))])],
        []);

    private string Named(TableRow row) => row.Meaning.Runs.Count == 0 ? row.Name : $"{row.Name}: {PlanWords.In(row.Meaning, units)}";

    private string Say(string key, params FactValue[] values) => PlanWords.Say(new Fact(key, values), units);

    private string Span(QuantityKind kind, Band band) => Phrases.FormatRange(kind, band.Low, band.High, units);
}

/// <summary>A part of a plan on a screen: a table, or sentences.</summary>
/// <param name="Title">Its heading.</param>
/// <param name="Heads">Heads of the columns; empty for sentences.</param>
/// <param name="Rows">Rows of the table.</param>
/// <param name="Sentences">The sentences.</param>
public sealed record ScreenPart(string Title, IReadOnlyList<string> Heads, IReadOnlyList<IReadOnlyList<string>> Rows, IReadOnlyList<string> Sentences);
