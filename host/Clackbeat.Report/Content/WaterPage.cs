using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Report.Content;

/// <summary>Where the water and its energy go, measured beside expected.</summary>
internal sealed class WaterPage(RamSite site, RamAnalysis analysis, Gallery gallery)
{
    /// <summary>The section; null where the record gave no flow.</summary>
    public Section? Make() => Flow.DeliveredM3PerS is null
        ? null
        : new Section("water", Phrases.Say("report.water-energy"),
        [
            .. NoteOfStandstill(), new Paragraph(ReportWords.WaterLead), MeasuredBesideExpected(), new Paragraph(ReportWords.ExpectedLead), .. gallery.Water(),
        ]);

    private FlowSummary Flow => analysis.WhileBeating?.Flow ?? analysis.Flow;

    private EfficiencySummary Efficiency => analysis.WhileBeating?.Efficiency ?? analysis.Efficiency;

    private IEnumerable<Block> NoteOfStandstill()
    {
        if (analysis.WhileBeating is not null)
        {
            yield return new Paragraph(Rich.Say("report.ram-stands-still-delivers-nothing", ("until", ReportWords.Until(analysis))));
        }
    }

    private Table MeasuredBesideExpected()
    {
        ExpectedRam expected = ExpectedFigures.For(site).Ram;
        return new Table(Phrases.Say("report.measured-beside-expected"), [Phrases.Say("report.figure"), Phrases.Say("report.measured"), Phrases.Say("report.expected"), Phrases.Say("report.so-it-is")],
        [
            new TableGroup(null,
            [
                Row(Phrases.Say("report.beats-minute"), Kind.Rate, analysis.Beats.RatePerMin, expected.BeatsPerMin),
                Row(Phrases.Say("report.speed-valve-shuts"), Kind.Speed, Flow.ClosingVelocityMPerS, expected.ClosingVelocityMPerS),
                Row(Phrases.Say("report.delivered"), Kind.Flow, Flow.DeliveredM3PerS, expected.DeliveredM3PerS),
                Row(Phrases.Say("report.waste"), Kind.Flow, Flow.WasteM3PerS, expected.WasteM3PerS),
                Row(Phrases.Say("report.efficiency-after-daubuisson"), Kind.Share, Efficiency.DAubuisson, expected.DAubuisson),
            ]),
        ]);
    }

    private static TableRow Row(string name, Kind kind, Figure? measured, Band band) => new(
        name, Rich.Empty,
        [
            Show.Of(kind, measured) is { } written ? written : ReportWords.NotGiven,
            Show.Of(kind, band.Low, 2) is { } low && Show.Of(kind, band.High, 2) is { } high ? Rich.Say("report.range-to", ("low", low), ("high", high)) : ReportWords.NotGiven,
            ReportWords.Against(measured, band.Low, band.High),
        ]);
}
