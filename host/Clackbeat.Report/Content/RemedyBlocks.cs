using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Figures;
using Clackbeat.Words;

namespace Clackbeat.Report.Content;

/// <summary>What would help, before and after, as the twin of this ram, or a virtual ram of its site, has it.</summary>
internal static class RemedyBlocks
{
    public static IEnumerable<Block> Of(TwinPart? twin, PipeCheck pipe)
    {
        if (twin?.WhyNoRemedies is { } why)
        {
            yield return new Paragraph(Catalogue.Current.Say(why));
        }

        if (twin?.Remedies is not { } table)
        {
            yield break;
        }

        yield return new Paragraph(Lead(table, pipe));
        yield return Beside(table, Phrases.Say("report.what-would-help"), [Phrases.Say("report.change"), Phrases.Say("report.peak"), Phrases.Say("report.margin"), Phrases.Say("report.verdict"), Phrases.Say("report.fatigue-life")], Pipe);
        yield return Beside(table, Phrases.Say("report.what-would-do-water"), [Phrases.Say("report.change"), Phrases.Say("report.delivered"), Phrases.Say("report.waste"), Phrases.Say("report.beats-minute")], Water);
        if (table.NotTried.Count > 0)
        {
            yield return new Bullets([.. table.NotTried.Select(n => (Rich)Catalogue.Current.Say(RemedyWords.NotTried(n)))]);
        }
    }

    private static Rich Lead(RemedyTable table, PipeCheck pipe)
    {
        if (table.IsOfTwin)
        {
            return Phrases.Say("report.twin-tried");
        }

        var lead = Rich.Say("report.virtual-ram-made-up-site", ("runs", table.Runs));
        return pipe.PeakPa is { } measured && Show.Of(Kind.Pressure, measured) is { } peak && Show.Of(Kind.Pressure, table.AsItIs.PeakPa.Value) is { } made
            ? lead.Then(Rich.Say("report.hard-peaks-reach-where-record", ("made", made), ("peak", peak)))
            : lead;
    }

    // Two tables: eight columns fit neither a phone nor a sheet of paper.
    private static Table Beside(RemedyTable table, string title, string[] heads, Func<Remedy, TableRow> row) => new(title, heads,
    [
        new TableGroup(Phrases.Say("report.before"), [row(table.AsItIs)]),
        new TableGroup(Phrases.Say("report.after"), [.. table.Changes.Select(row)]),
    ]);

    private static TableRow Pipe(Remedy remedy) => new(Catalogue.Current.Say(RemedyWords.Name(remedy.Change)), RemedyWords.Meaning(remedy.Change) is { } meaning ? Catalogue.Current.Say(meaning) : Rich.Empty,
    [
        Cell(Show.Of(Kind.Pressure, Figure(remedy.PeakPa))),
        remedy.Margin is { } margin ? Digits.WithMargin(margin.Value, margin.HalfWidth) : ReportWords.NotGiven,
        ReportWords.PipeVerdictWord(remedy.Verdict),
        remedy.LifeYears is { } life ? ReportWords.Life(life) : ReportWords.NotGiven,
    ]);

    private static TableRow Water(Remedy remedy) => new(Catalogue.Current.Say(RemedyWords.Name(remedy.Change)), Rich.Empty,
    [
        Cell(Show.Of(Kind.Flow, Figure(remedy.DeliveredM3PerS))),
        Cell(Show.Of(Kind.Flow, Figure(remedy.WasteM3PerS))),
        Digits.WithMargin(remedy.BeatsPerMin.Value, remedy.BeatsPerMin.HalfWidth),
    ]);

    private static Figure Figure(Estimate estimate) => new(estimate.Value, estimate.HalfWidth);

    private static Rich Cell(Measure? measure) => measure is { } m ? m : ReportWords.NotGiven;
}
