using System.Globalization;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Report.Content;

/// <summary>Decides what a report holds and in which order, from what the record could tell.</summary>
internal sealed class Composer(RamSite site, RamAnalysis analysis, RamAnalysis? baseline, DateTimeOffset made, TwinPart? twin = null)
{
    private readonly Gallery _gallery = new(new PlotInput(site, analysis, baseline));

    public ReportContent Make()
    {
        // The last picture of the beat stands on the first page, and nowhere else.
        IReadOnlyList<Block> beat = _gallery.Beat();
        Section?[] sections =
        [
            new FindingsPage(analysis, baseline).Make(),
            Facts("moved", Phrases.Say("report.what-moved"), twin?.Moved ?? []),
            Facts("found", Phrases.Say("report.what-record-shows-besides"), analysis.Findings),
            Facts("limits", Phrases.Say("report.what-missing-uncertain-why"), analysis.Limits),
            new WaterPage(site, analysis, _gallery).Make(),
            new PipePage(analysis, _gallery, twin).Make(),
            Pictures("beat", Phrases.Say("report.beat"), [.. beat.SkipLast(1)]),
            Pictures("record", Phrases.Say("report.along-record"), _gallery.Along()),
            new Section("all", Phrases.Say("report.all-figures"), AllFigures()),
            new Section("input", Phrases.Say("report.how-good-record"), Input()),
            new Section("site", Phrases.Say("report.what-taken-given"), [new Paragraph(SiteLead), SiteTable.Make(site)]),
            new Section("reading", Phrases.Say("report.how-read-report"), [new Terms(ReportWords.Glossary)]),
            new Section("cautions", Phrases.Say("report.before-you-work-ram"), [new Bullets(ReportWords.Cautions)]),
        ];
        return new ReportContent(site.Name, Source(), ReportWords.Verdict(analysis), [.. sections.OfType<Section>()])
        {
            FirstPage = new FirstPage(site, analysis, beat.Count > 0 ? beat[^1] as PictureBlock : null).Make(),
            Units = site.Units,
        };
    }

    private static Rich SiteLead =>
        Phrases.Say("report.these-came-site-file-measured");

    private string Source()
    {
        string when = $"{Dates.Day(DateOnly.FromDateTime(made.DateTime))}, {made.ToString("HH:mm", CultureInfo.InvariantCulture)}";
        string zone = made.Offset == TimeSpan.Zero ? "UTC" : "UTC" + made.ToString("zzz", CultureInfo.InvariantCulture);
        string against = baseline is null ? "" : Phrases.Say("report.compared", ("file", Path.GetFileName(baseline.Input.File)));
        return Phrases.Say("report.made", ("file", Path.GetFileName(analysis.Input.File)), ("duration", Show.Duration(analysis.Input.DurationS)), ("against", against), ("when", when), ("zone", zone));
    }

    private static Section? Facts(string id, string title, IReadOnlyList<Fact> facts) => facts.Count == 0
        ? null
        : new Section(id, title, [new Bullets([.. Catalogue.Current.Say(facts).Select(text => (Rich)text)])]);

    private static Section? Pictures(string id, string title, IReadOnlyList<Block> pictures) =>
        pictures.Count == 0 ? null : new Section(id, title, pictures);

    private List<Block> AllFigures()
    {
        var blocks = new List<Block>();
        if (baseline is not null)
        {
            blocks.Add(new Paragraph(Rich.Say("report.baseline-no-clear-change-means", ("file", Path.GetFileName(baseline.Input.File)))));
        }

        blocks.Add(new FigureTable(analysis, baseline).Make());
        return blocks;
    }

    private List<Block> Input()
    {
        InputSummary input = analysis.Input;
        List<Rich> notes = [.. ReportWords.InputNotes(input)];
        return
        [
            new Table(Phrases.Say("report.the-record"), [Phrases.Say("report.entry"), Phrases.Say("report.value")],
            [
                new TableGroup(null,
                [
                    new TableRow(Phrases.Say("report.file"), Rich.Empty, [Path.GetFileName(input.File)]),
                    new TableRow(Phrases.Say("report.length"), Rich.Empty, [Show.Duration(input.DurationS)]),
                    new TableRow(Phrases.Say("report.samples"), Rich.Empty, [Rich.Of($"{input.Samples}")]),
                    new TableRow(Phrases.Say("report.samples-second"), Rich.Empty, [Digits.Significant(input.SampleRateHz, 4)]),
                    .. input.Board is { } board ? [new TableRow(Phrases.Say("report.times-of-samples"), Rich.Empty, [ReportWords.Times(board)])] : Array.Empty<TableRow>(),
                    new TableRow(Phrases.Say("report.gaps"), Rich.Empty, [Rich.Of($"{input.Gaps.Count}")]),
                    new TableRow(Phrases.Say("report.end-sensors-range"), Rich.Empty, [Rich.Say("report.samples-2", ("clipped_samples", input.ClippedSamples))]),
                    new TableRow(Phrases.Say("report.repeated-instants"), Rich.Empty, [Rich.Of($"{input.RepeatedTimestamps}")]),
                    new TableRow(Phrases.Say("report.out-order"), Rich.Empty, [Rich.Of($"{input.UnorderedTimestamps}")]),
                    new TableRow(Phrases.Say("report.unusable-rows"), Rich.Empty, [Rich.Of($"{input.SkippedRows}")]),
                ]),
            ]),
            notes.Count == 0 ? new Paragraph(Phrases.Say("report.nothing-lost-damaged")) : new Bullets(notes),
        ];
    }
}
