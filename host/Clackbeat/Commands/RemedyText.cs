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
            ["", "Peak", "Margin", "Life, years", "Delivered", "To waste", "Beats/min"],
            [Row("before: " + table.AsItIs.Change, table.AsItIs, units), .. table.Changes.Select(c => Row(c.Change, c, units))]);
        Layout.Bullets(session,
        [
            .. table.Changes.Select(c => $"{c.Change} ({ContractNames.Of(c.Verdict)}): {c.Meaning}"),
            .. table.NotTried,
            Text($"A virtual ram made up for this site was run {table.Runs} times with each change, its valves smooth and lively; ± is how far the runs lie apart. Read the table as changes, not as promises."),
        ]);
    }

    private static IReadOnlyList<string> Row(string name, Remedy remedy, Units units) =>
    [
        name,
        Figure(QuantityKind.Pressure, remedy.PeakPa, units),
        remedy.Margin is { } margin ? Text($"{margin.Value:0.0} ± {margin.Spread:0.0}") : "not known",
        remedy.LifeYears is { } life ? Text($"{life.Value:0.#} ({life.Low:0.##} to {life.High:0.#})") : "no figure",
        Figure(QuantityKind.Flow, remedy.DeliveredM3PerS, units),
        Figure(QuantityKind.Flow, remedy.WasteM3PerS, units),
        Text($"{remedy.BeatsPerMin.Value:0} ± {remedy.BeatsPerMin.Spread:0}"),
    ];

    private static string Figure(QuantityKind kind, Estimate estimate, Units units) =>
        QuantityFormat.Format(kind, estimate.Value, estimate.Spread, units);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
