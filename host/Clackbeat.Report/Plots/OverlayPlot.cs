using Clackbeat.Signal.Figures;
using Clackbeat.Words;
using ScottPlot;

namespace Clackbeat.Report.Plots;

/// <summary>All beats laid over one another, aligned on the closure, with the median beat and the middle 90 %.</summary>
internal static class OverlayPlot
{
    private const int MostCurves = 24;
    private const double RowPx = 19;

    public static Plot Draw(PlotInput input, Frame frame)
    {
        BeatBundle bundle = BeatBundle.Of(input.Analysis.Picture.Overlay)!;
        BeatBundle? before = input.Baseline is null ? null : BeatBundle.Of(input.Baseline.Picture.Overlay);
        double end = Math.Max(bundle.TimeS[^1], before?.TimeS[^1] ?? 0);
        double[] all = [.. bundle.Low, .. bundle.High, .. before?.Median ?? [], 0];
        (double low, double high) = (all.Min(), all.Max());
        double pad = 0.1 * (high - low);

        var sheet = new Sheet(frame);
        sheet.PressureAxis(low - pad, high + (2 * pad));
        sheet.TimeAxis(bundle.TimeS[0], end, Phrases.Say("plots.time-after-waste-valve-shuts"));
        (double, double) pixel = sheet.Pixel(end - bundle.TimeS[0], high - low);
        foreach (TraceCurve beat in Thinned(input.Analysis.Picture.Overlay))
        {
            foreach (List<Coordinates> piece in Curves.Pieces(beat, bundle.TimeS[0], end))
            {
                sheet.Line(Curves.Simplify(piece, pixel, 0.7), Ink.Sky.WithAlpha(0.45), 0.8f);
            }
        }

        sheet.Band(bundle.TimeS, bundle.Low, bundle.High, Ink.Sky, 0.35);
        if (before is not null)
        {
            sheet.Line(Curves.Simplify(Points(before), pixel), Ink.Vermilion, 2.2f, LinePattern.Dashed);
        }

        sheet.Line(Curves.Simplify(Points(bundle), pixel), Ink.Blue, 2.4f);
        Key(sheet, frame, before is not null);
        return sheet.Plot;
    }

    private static List<Coordinates> Points(BeatBundle bundle) =>
        [.. bundle.TimeS.Zip(bundle.Median, (t, p) => new Coordinates(t, p))];

    private static IEnumerable<TraceCurve> Thinned(IReadOnlyList<TraceCurve> overlay)
    {
        int step = Math.Max(1, (int)Math.Ceiling(overlay.Count / (double)MostCurves));
        return overlay.Where((_, i) => i % step == 0);
    }

    private static void Key(Sheet sheet, Frame frame, bool withBaseline)
    {
        AxisLimits limits = sheet.Plot.Axes.GetLimits();
        double x = limits.Left + ((limits.Right - limits.Left) * (frame.IsNarrow ? 0.38 : 0.5));
        double row = RowPx * sheet.Pixel(1, limits.Top - limits.Bottom).Y;
        double swatch = (limits.Right - limits.Left) * 0.05;
        (string Name, Color Color, float Width, LinePattern Pattern)[] rows =
        [
            (Phrases.Say("plots.median-beat"), Ink.Blue, 2.4f, LinePattern.Solid),
            (Phrases.Say("plots.nine-beats-ten"), Ink.Sky.WithAlpha(0.6), 12f, LinePattern.Solid),
            .. withBaseline ? [(Phrases.Say("plots.median-beat-baseline"), Ink.Vermilion, 2.2f, LinePattern.Dashed)] : Array.Empty<(string, Color, float, LinePattern)>(),
        ];
        for (int i = 0; i < rows.Length; i++)
        {
            double y = limits.Top - (row * (i + 0.8));
            sheet.Line([new(x, y), new(x + swatch, y)], rows[i].Color, rows[i].Width, rows[i].Pattern);
            sheet.Note(rows[i].Name, x + swatch, y, Alignment.MiddleLeft, Ink.Text);
        }
    }
}
