using ScottPlot;
using ScottPlot.Plottables;

namespace Clackbeat.DiagnosisStudy.Published;

/// <summary>Draws the efficiency of virtual rams over lift by fall, beside published figures.</summary>
internal static class LiftPlot
{
    // Colours that people with any colour vision tell apart (Okabe and Ito 2008).
    private static readonly Color Blue = new(0x00, 0x72, 0xB2);
    private static readonly Color Orange = new(0xD5, 0x5E, 0x00);
    private static readonly Color Green = new(0x00, 0x9E, 0x73);
    private static readonly Color Black = new(0x20, 0x20, 0x20);

    public static void Save(string path, IReadOnlyList<LiftPoint> points)
    {
        using var plot = new Plot();
        Band(plot, points);
        Series(plot, "pocketbook", "Trade pocketbook", Black, MarkerShape.FilledSquare);
        Series(plot, "bulletin", "Bulletin's table, fall of 2 m", Orange, MarkerShape.FilledTriangleUp);
        Series(plot, "laboratory", "Laboratory, 2017", Green, MarkerShape.FilledDiamond);
        plot.XLabel("Lift over fall (delivery head / supply head)");
        plot.YLabel("Efficiency (%)");
        plot.Axes.SetLimits(1, 21, 0, 85);
        plot.ShowLegend(Alignment.LowerLeft);
        plot.SaveSvg(path, 760, 500);
    }

    private static void Band(Plot plot, IReadOnlyList<LiftPoint> points)
    {
        var byLift = points.GroupBy(p => p.LiftOverFall).OrderBy(g => g.Key).ToList();
        double[] xs = [.. byLift.Select(g => g.Key)];
        FillY band = plot.Add.FillY(
            xs,
            [.. byLift.Select(g => 100 * g.Min(p => p.DAubuisson))],
            [.. byLift.Select(g => 100 * g.Max(p => p.DAubuisson))]);
        band.FillColor = Blue.WithAlpha(0.2);
        band.LineColor = Blue.WithAlpha(0.4);
        band.LegendText = "Virtual rams, lowest to highest of 8";
        Scatter middle = plot.Add.Scatter(xs, [.. byLift.Select(g => 100 * Middle([.. g.Select(p => p.DAubuisson)]))], Blue);
        middle.LineWidth = 2;
        middle.LegendText = "Virtual rams, median";
    }

    private static void Series(Plot plot, string name, string legend, Color color, MarkerShape shape)
    {
        PublishedFigure[] figures = [.. PublishedFigure.All.Where(f => f.Series == name)];
        Scatter dots = plot.Add.Scatter(
            figures.Select(f => f.LiftOverFall).ToArray(), figures.Select(f => 100 * f.Share).ToArray(), color);
        dots.MarkerShape = shape;
        dots.MarkerSize = 9;
        dots.LegendText = legend;
    }

    /// <summary>Median.</summary>
    internal static double Middle(double[] values)
    {
        Array.Sort(values);
        return (values[(values.Length - 1) / 2] + values[values.Length / 2]) / 2;
    }
}
