using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Rate;

/// <summary>What would help, as a person reads it on a screen.</summary>
internal static class RemedyText
{
    /// <summary>Writes the table, what each change is, and what the estimate is worth.</summary>
    public static void Write(Session session, RemedyTable table, Units units)
    {
        session.Out.WriteLine();
        session.Out.WriteLine(Phrases.Say("screen.what-would-help-before-after"));
        Layout.Table(
            session,
            ["", .. Heads(table, units)],
            [Row(Phrases.Say("screen.before") + Name(table.AsItIs), table.AsItIs, units), .. table.Changes.Select(c => Row(Name(c), c, units))]);
        Layout.Bullets(session,
        [
            .. table.Changes.Select(c => $"{Name(c)} ({Summary.Word(c.Verdict)}): {(RemedyWords.Meaning(c.Change) is { } meaning ? Catalogue.Current.Say(meaning) : "")}"),
            .. Catalogue.Current.Say(table.NotTried.Select(RemedyWords.NotTried)),
            Phrases.Say("screen.virtual-ram-made-up-site", ("runs", table.Runs)),
        ]);
    }

    private static string Name(Remedy remedy) => Catalogue.Current.Say(RemedyWords.Name(remedy.Change));

    // The unit of the first row stands in the head, so that the columns stay narrow.
    private static string[] Heads(RemedyTable table, Units units) =>
    [
        Phrases.Say("screen.peak-3", ("unit", Unit(QuantityKind.Pressure, table.AsItIs.PeakPa, units))),
        Phrases.Say("screen.mar-gin"),
        Phrases.Say("screen.life-years"),
        Phrases.Say("screen.up", ("unit", Unit(QuantityKind.Flow, table.AsItIs.DeliveredM3PerS, units))),
        Phrases.Say("screen.waste-2", ("unit", Unit(QuantityKind.Flow, table.AsItIs.WasteM3PerS, units))),
        Phrases.Say("screen.beats-min"),
    ];

    private static string Unit(QuantityKind kind, Estimate estimate, Units units) => Parts(kind, estimate, units).Unit;

    private static IReadOnlyList<string> Row(string name, Remedy remedy, Units units) =>
    [
        name,
        Bare(QuantityKind.Pressure, remedy.PeakPa, units),
        remedy.Margin is { } margin ? Phrases.WithMargin(margin.Value, margin.HalfWidth) : Phrases.Say("screen.known"),
        remedy.LifeYears is { } life ? Phrases.Say("screen.to", ("value", life.Value), ("low", life.Low), ("high", life.High)) : Phrases.Say("screen.no-figure"),
        Bare(QuantityKind.Flow, remedy.DeliveredM3PerS, units),
        Bare(QuantityKind.Flow, remedy.WasteM3PerS, units),
        Phrases.WithMargin(remedy.BeatsPerMin.Value, remedy.BeatsPerMin.HalfWidth),
    ];

    private static string Bare(QuantityKind kind, Estimate estimate, Units units) => Phrases.Number(Parts(kind, estimate, units).Number);

    private static QuantityParts Parts(QuantityKind kind, Estimate estimate, Units units) =>
        QuantityFormat.Parts(kind, estimate.Value, estimate.HalfWidth, units);
}
