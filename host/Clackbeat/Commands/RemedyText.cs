using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Export;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands;

/// <summary>What would help, as a person reads it on a screen.</summary>
internal static class RemedyText
{
    /// <summary>Writes the table, what each change is, and what the estimate is worth.</summary>
    public static void Write(Session session, RemedyTable table, Units units)
    {
        session.Out.WriteLine();
        session.Out.WriteLine("What would help, before and after");
        Layout.Table(
            session,
            ["", .. Heads(table, units)],
            [Row("before: " + table.AsItIs.Change, table.AsItIs, units), .. table.Changes.Select(c => Row(c.Change, c, units))]);
        Layout.Bullets(session,
        [
            .. table.Changes.Select(c => $"{c.Change} ({ContractNames.Of(c.Verdict)}): {c.Meaning}"),
            .. table.NotTried,
            Text($"A virtual ram made up for this site was run {table.Runs} times with each change, its valves smooth and lively; ± is how far the runs lie apart. Read the table as changes, not as promises."),
        ]);
    }

    // The unit of the first row stands in the head, so that the columns stay narrow.
    private static string[] Heads(RemedyTable table, Units units) =>
    [
        $"Peak {Unit(QuantityKind.Pressure, table.AsItIs.PeakPa, units)}",
        "Mar- gin",
        "Life years",
        $"Up {Unit(QuantityKind.Flow, table.AsItIs.DeliveredM3PerS, units)}",
        $"Waste {Unit(QuantityKind.Flow, table.AsItIs.WasteM3PerS, units)}",
        "Beats a min",
    ];

    private static string Unit(QuantityKind kind, Estimate estimate, Units units) => Figure(kind, estimate, units).Split(' ')[^1];

    private static IReadOnlyList<string> Row(string name, Remedy remedy, Units units) =>
    [
        name,
        Bare(QuantityKind.Pressure, remedy.PeakPa, units),
        remedy.Margin is { } margin ? Text($"{margin.Value:0.0} ± {margin.Spread:0.0}") : "not known",
        remedy.LifeYears is { } life ? Text($"{life.Value:0.#} ({life.Low:0.##} to {life.High:0.#})") : "no figure",
        Bare(QuantityKind.Flow, remedy.DeliveredM3PerS, units),
        Bare(QuantityKind.Flow, remedy.WasteM3PerS, units),
        Text($"{remedy.BeatsPerMin.Value:0.0} ± {remedy.BeatsPerMin.Spread:0.0}"),
    ];

    private static string Bare(QuantityKind kind, Estimate estimate, Units units)
    {
        string written = Figure(kind, estimate, units);
        return written[..written.LastIndexOf(' ')];
    }


    private static string Figure(QuantityKind kind, Estimate estimate, Units units) =>
        QuantityFormat.Format(kind, estimate.Value, estimate.Spread, units);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
