using Clackbeat.DiagnosisStudy.Training;
using ScottPlot;
using ScottPlot.Plottables;

namespace Clackbeat.DiagnosisStudy.Papers;

/// <summary>Draws how often what was stated with a probability was true.</summary>
internal static class CalibrationPlot
{
    public static void Save(string path, IReadOnlyList<Judged> baseline, IReadOnlyList<Judged> site)
    {
        using var plot = new Plot();
        plot.Add.Line(0, 0, 1, 1).LineColor = Colors.Gray;
        Draw(plot, baseline, true, "with a baseline", new Color(0x00, 0x72, 0xB2), -0.004);
        Draw(plot, site, false, "by the site file alone", new Color(0xD5, 0x5E, 0x00), 0.004);
        plot.Axes.SetLimits(-0.02, 1.02, -0.02, 1.05);
        plot.XLabel("Stated probability");
        plot.YLabel("Share that was true");
        plot.ShowLegend(Alignment.UpperLeft);
        plot.SaveSvg(path, 720, 520);
    }

    private static void Draw(Plot plot, IReadOnlyList<Judged> judged, bool changes, string name, Color color, double shift)
    {
        var xs = new List<double>();
        var ys = new List<double>();
        var errors = new List<double>();
        foreach (Bin bin in Calibration.Bins(judged, changes))
        {
            xs.Add(bin.Stated + shift);
            ys.Add(bin.True);
            errors.Add(2 * bin.Error);
        }

        Scatter dots = plot.Add.Scatter(xs.ToArray(), ys.ToArray(), color);
        dots.LegendText = name;
        dots.MarkerSize = 8;
        ErrorBar bars = plot.Add.ErrorBar(xs.ToArray(), ys.ToArray(), errors.ToArray());
        bars.Color = color;
    }
}
