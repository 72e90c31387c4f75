using AngleSharp.Dom;
using Clackbeat.Report.Plots;
using Clackbeat.Signal.Flow;
using ScottPlot;

namespace Clackbeat.Report.Tests;

/// <summary>The page about the water and its energy, as its reader sees it.</summary>
public class WaterPageSpecs
{
    private static readonly EnergySplit Energy = new(46, 29, 2, 7, 9, -1);

    [Fact]
    public void The_steps_of_the_energy_end_at_what_was_drawn() =>
        Assert.Equal(Energy.DrawnJ, EnergyPlot.Steps(Energy).Sum(s => s.Joule), 1e-9);

    [Theory]
    [InlineData(46, 29, 2, 7, 9, -1)]
    [InlineData(46, 29, 2, 7, 3, 5)]
    [InlineData(0.2, 0.1, 0.05, 0.02, 0.02, 0.01)]
    public void The_energy_can_be_drawn_at_every_size(double drawn, double up, double side, double waste, double friction, double rest)
    {
        foreach (Frame frame in (Frame[])[Frame.Wide, Frame.Narrow, Frame.Paper])
        {
            Plot plot = EnergyPlot.Draw(new EnergySplit(drawn, up, side, waste, friction, rest), frame);
            Assert.Contains("<svg", plot.GetSvgXml(frame.Width, frame.Height), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Measured_stands_beside_expected_with_a_verdict_in_words()
    {
        IElement page = Page(MadeUpRam.Analysis() with { Energy = Energy });

        IElement table = page.QuerySelector("#water table")!;
        string[] rows = [.. table.QuerySelectorAll("tbody tr:not(.group)").Select(r => r.Said())];
        Assert.Equal(5, rows.Length);
        Assert.All(rows, r => Assert.True(
            r.Contains("as expected", StringComparison.Ordinal) || r.Contains("below", StringComparison.Ordinal)
            || r.Contains("above", StringComparison.Ordinal) || r.Contains("not given", StringComparison.Ordinal), r));
        Assert.Contains("Lifted to the outlet", page.QuerySelector("#water svg")!.OuterHtml, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_flow_there_is_no_such_page() =>
        Assert.Null(Page(MadeUpRam.Analysis() with { Flow = new() }).QuerySelector("#water"));

    private static IElement Page(Signal.Analysis.RamAnalysis analysis) => Reports.Page(analysis).DocumentElement;
}
