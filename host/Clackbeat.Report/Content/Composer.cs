using System.Globalization;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Model;

namespace Clackbeat.Report.Content;

/// <summary>Decides what a report holds and in which order, from what the record could tell.</summary>
internal sealed class Composer(RamSite site, RamAnalysis analysis, RamAnalysis? baseline, DateTimeOffset made, RemedyTable? remedies = null)
{
    private readonly Gallery gallery = new(new PlotInput(site, analysis, baseline));

    public ReportContent Make()
    {
        Section?[] sections =
        [
            new Section("figures", "The main figures", [MainFigures()]),
            new FindingsPage(analysis, baseline).Make(),
            Limits(),
            new WaterPage(site, analysis, gallery).Make(),
            new PipePage(analysis, gallery, remedies).Make(),
            Pictures("beat", "The beat", gallery.Beat()),
            Pictures("record", "Along the record", gallery.Along()),
            new Section("all", "All figures", AllFigures()),
            new Section("input", "How good the record is", Input()),
            new Section("site", "What was taken as given", [new Paragraph(SiteLead), SiteTable.Make(site)]),
            new Section("reading", "How to read this report", [new Terms(Words.Glossary)]),
            new Section("cautions", "Before you work on the ram", [new Bullets(Words.Cautions)]),
        ];
        return new ReportContent(site.Name, Source(), Words.Verdict(analysis), [.. sections.OfType<Section>()]) { Units = site.Units };
    }

    private static Rich SiteLead =>
        "These came from the site file and were not measured. A wrong head, length or bore makes the figures wrong, so check them once more.";

    private string Source()
    {
        string when = made.ToString("d MMMM yyyy, HH:mm", CultureInfo.InvariantCulture);
        string zone = made.Offset == TimeSpan.Zero ? "UTC" : "UTC" + made.ToString("zzz", CultureInfo.InvariantCulture);
        string against = baseline is null ? "" : $", compared with {Path.GetFileName(baseline.Input.File)}";
        return $"From {Path.GetFileName(analysis.Input.File)} ({Show.Duration(analysis.Input.DurationS)}){against}. Made {when} {zone}.";
    }

    private Tiles MainFigures() => new(
    [
        new Tile("Beats a minute", Bare(Show.Of(Kind.Rate, analysis.Beats.RatePerMin)), "How often the waste valve shuts."),
        new Tile("Delivered", Show.Of(Kind.Flow, analysis.Flow.DeliveredM3PerS), "Water that goes up the hill."),
        new Tile("To waste", Show.Of(Kind.Flow, analysis.Flow.WasteM3PerS), "Water spent to lift the rest."),
        new Tile("Delivery pressure", Show.Of(Kind.Pressure, analysis.Pressure.Delivery), "On the ram while it delivers."),
        Peak(),
        new Tile("Efficiency", Show.Of(Kind.Share, analysis.Efficiency.DAubuisson), "Power lifted over power drawn (D'Aubuisson)."),
    ]);

    private Tile Peak() => Show.Of(Kind.Pressure, analysis.Pressure.PeakTrue) is { } estimated
        ? new Tile("Peak pressure", estimated, "The knock as the waste valve shuts, estimated between the samples.")
        : new Tile("Peak pressure", Show.Of(Kind.Pressure, analysis.Pressure.PeakMaxPa), "The knock as the waste valve shuts: the highest sample.");

    private static Measure? Bare(Measure? rate) => rate is { } r ? Measure.Same(r.Metric.Value, r.Metric.Margin) : null;

    private Section? Limits() => analysis.Limits.Count == 0
        ? null
        : new Section("limits", "What could not be told, and why", [new Bullets([.. analysis.Limits.Select(l => (Rich)l)])]);

    private static Section? Pictures(string id, string title, IReadOnlyList<Block> pictures) =>
        pictures.Count == 0 ? null : new Section(id, title, pictures);

    private List<Block> AllFigures()
    {
        var blocks = new List<Block>();
        if (baseline is not null)
        {
            blocks.Add(new Paragraph(Rich.Of($"The baseline is {baseline.Input.File}. “No clear change” means that the margins of both figures explain the difference.")));
        }

        blocks.Add(new FigureTable(analysis, baseline).Make());
        return blocks;
    }

    private List<Block> Input()
    {
        InputSummary input = analysis.Input;
        List<Rich> notes = [.. Words.InputNotes(input)];
        return
        [
            new Table("The record", ["Entry", "Value"],
            [
                new TableGroup(null,
                [
                    new TableRow("File", Rich.Empty, [input.File]),
                    new TableRow("Length", Rich.Empty, [Show.Duration(input.DurationS)]),
                    new TableRow("Samples", Rich.Empty, [Rich.Of($"{input.Samples}")]),
                    new TableRow("Samples a second", Rich.Empty, [Digits.Significant(input.SampleRateHz, 4)]),
                    new TableRow("Gaps", Rich.Empty, [Rich.Of($"{input.Gaps.Count}")]),
                    new TableRow("At an end of the sensor's range", Rich.Empty, [Rich.Of($"{input.ClippedSamples} samples")]),
                    new TableRow("Repeated instants", Rich.Empty, [Rich.Of($"{input.RepeatedTimestamps}")]),
                    new TableRow("Out of order", Rich.Empty, [Rich.Of($"{input.UnorderedTimestamps}")]),
                    new TableRow("Unusable rows", Rich.Empty, [Rich.Of($"{input.SkippedRows}")]),
                ]),
            ]),
            notes.Count == 0 ? new Paragraph("Nothing was lost or damaged.") : new Bullets(notes),
        ];
    }
}
