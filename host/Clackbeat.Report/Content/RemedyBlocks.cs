using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Export;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;

namespace Clackbeat.Report.Content;

/// <summary>What would help, before and after, as a virtual ram of this site has it.</summary>
internal static class RemedyBlocks
{
    public static IEnumerable<Block> Of(RemedyTable? table, PipeCheck pipe)
    {
        if (table is null)
        {
            yield break;
        }

        yield return new Paragraph(Lead(table, pipe));
        yield return Beside(table, "What would help", ["Change", "Peak", "Margin", "Fatigue life", "Verdict"], Pipe);
        yield return Beside(table, "What it would do to the water", ["Change", "Delivered", "To waste", "Beats a minute"], Water);
        if (table.NotTried.Count > 0)
        {
            yield return new Bullets([.. table.NotTried.Select(n => (Rich)n)]);
        }
    }

    private static Rich Lead(RemedyTable table, PipeCheck pipe)
    {
        Rich lead = Rich.Of($"A virtual ram made up for this site was run {table.Runs} times with each change, its valves smooth and lively; ± is how far the runs lie apart. Read the table as changes, not as promises.");
        return pipe.PeakPa is { } measured && Show.Of(Kind.Pressure, measured) is { } peak && Show.Of(Kind.Pressure, table.AsItIs.PeakPa.Value) is { } made
            ? lead.Then(Rich.Of($"Its hard peaks reach {made}, where this record has {peak}."))
            : lead;
    }

    // Two tables: eight columns fit neither a phone nor a sheet of paper.
    private static Table Beside(RemedyTable table, string title, string[] heads, Func<Remedy, TableRow> row) => new(title, heads,
    [
        new TableGroup("Before", [row(table.AsItIs)]),
        new TableGroup("After", [.. table.Changes.Select(row)]),
    ]);

    private static TableRow Pipe(Remedy remedy) => new(remedy.Change, remedy.Meaning.Length > 0 ? remedy.Meaning : Rich.Empty,
    [
        Cell(Show.Of(Kind.Pressure, Figure(remedy.PeakPa))),
        remedy.Margin is { } margin ? Rich.Of($"{Digits.Fixed(margin.Value, 1)} ± {Digits.Fixed(margin.Spread, 1)}") : Words.NotGiven,
        remedy.LifeYears is { } life ? Words.Life(life) : Words.NotGiven,
        ContractNames.Of(remedy.Verdict),
    ]);

    private static TableRow Water(Remedy remedy) => new(remedy.Change, Rich.Empty,
    [
        Cell(Show.Of(Kind.Flow, Figure(remedy.DeliveredM3PerS))),
        Cell(Show.Of(Kind.Flow, Figure(remedy.WasteM3PerS))),
        Rich.Of($"{Digits.Fixed(remedy.BeatsPerMin.Value, 0)} ± {Digits.Fixed(remedy.BeatsPerMin.Spread, 0)}"),
    ]);

    private static Figure Figure(Estimate estimate) => new(estimate.Value, estimate.Spread);

    private static Rich Cell(Measure? measure) => measure is { } m ? m : Words.NotGiven;
}
