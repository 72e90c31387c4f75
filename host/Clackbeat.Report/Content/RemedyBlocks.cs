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
        yield return new Table("What would help", ["Change", "Peak", "Margin", "Fatigue life", "Delivered", "To waste", "Beats a minute", "Verdict"],
        [
            new TableGroup("Before", [Row(table.AsItIs)]),
            new TableGroup("After", [.. table.Changes.Select(Row)]),
        ]);
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

    private static TableRow Row(Remedy remedy) => new(remedy.Change, remedy.Meaning.Length > 0 ? remedy.Meaning : Rich.Empty,
    [
        Cell(Show.Of(Kind.Pressure, Figure(remedy.PeakPa))),
        remedy.Margin is { } margin ? Rich.Of($"{Digits.Fixed(margin.Value, 1)} ± {Digits.Fixed(margin.Spread, 1)}") : Words.NotGiven,
        remedy.LifeYears is { } life ? Rich.Of($"{Words.Years(life.Value)} ({Words.Years(life.Low)} to {Words.Years(life.High)})") : Words.NotGiven,
        Cell(Show.Of(Kind.Flow, Figure(remedy.DeliveredM3PerS))),
        Cell(Show.Of(Kind.Flow, Figure(remedy.WasteM3PerS))),
        Rich.Of($"{Digits.Fixed(remedy.BeatsPerMin.Value, 0)} ± {Digits.Fixed(remedy.BeatsPerMin.Spread, 0)}"),
        ContractNames.Of(remedy.Verdict),
    ]);

    private static Figure Figure(Estimate estimate) => new(estimate.Value, estimate.Spread);

    private static Rich Cell(Measure? measure) => measure is { } m ? m : Words.NotGiven;
}
