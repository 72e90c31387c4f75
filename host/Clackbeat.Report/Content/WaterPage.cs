using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;

namespace Clackbeat.Report.Content;

/// <summary>Where the water and its energy go, measured beside expected.</summary>
internal sealed class WaterPage(RamSite site, RamAnalysis analysis, Gallery gallery)
{
    /// <summary>The section; null where the record gave no flow.</summary>
    public Section? Make() => analysis.Flow.DeliveredM3PerS is null
        ? null
        : new Section("water", "The water and its energy",
        [
            new Paragraph(Words.WaterLead), Beside(), new Paragraph(Words.ExpectedLead), .. gallery.Water(),
        ]);

    private Table Beside()
    {
        ExpectedRam expected = ExpectedFigures.For(site).Ram;
        return new Table("Measured beside expected", ["Figure", "Measured", "Expected", "So it is"],
        [
            new TableGroup(null,
            [
                Row("Beats a minute", Kind.Rate, analysis.Beats.RatePerMin, expected.BeatsPerMin),
                Row("Speed as the valve shuts", Kind.Speed, analysis.Flow.ClosingVelocityMPerS, expected.ClosingVelocityMPerS),
                Row("Delivered", Kind.Flow, analysis.Flow.DeliveredM3PerS, expected.DeliveredM3PerS),
                Row("To waste", Kind.Flow, analysis.Flow.WasteM3PerS, expected.WasteM3PerS),
                Row("Efficiency after D'Aubuisson", Kind.Share, analysis.Efficiency.DAubuisson, expected.DAubuisson),
            ]),
        ]);
    }

    private static TableRow Row(string name, Kind kind, Figure? measured, Band band) => new(
        name, Rich.Empty,
        [
            Show.Of(kind, measured) is { } written ? written : Words.NotGiven,
            Show.Of(kind, band.Low, 2) is { } low && Show.Of(kind, band.High, 2) is { } high ? Rich.Of($"{low} to {high}") : Words.NotGiven,
            Words.Against(measured, band.Low, band.High),
        ]);
}
