using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Words;
using ScottPlot;
using ScottPlot.Plottables;

namespace Clackbeat.Report.Plots;

/// <summary>Every pressure that matters on one scale, from the deepest suction to what the pipe is rated for.</summary>
internal static class LadderPlot
{
    public static Plot Draw(PlotInput input, Frame frame)
    {
        List<Rung> rungs = Rungs(input);
        double low = Math.Min(0, rungs.Min(r => r.Low));
        double high = rungs.Max(r => r.High);
        double width = Math.Max(high - low, 0.1);

        // Room for the figures that stand beside the marks.
        double room = width * (frame.IsNarrow ? 0.75 : 0.22);
        double left = low - (0.05 * width);

        var sheet = new Sheet(frame);
        sheet.Plot.Axes.SetLimits(left, high + room, -rungs.Count + 0.4, 0.6);
        sheet.PressureAcross(left, high + room, Phrases.Say("plots.gauge-pressure"));
        sheet.Plot.Axes.Left.TickGenerator = new ScottPlot.TickGenerators.NumericManual(
            [.. rungs.Select((_, i) => (double)-i)], [.. rungs.Select(r => r.Name)]);
        sheet.Plot.Axes.Left.TickLabelStyle.ForeColor = Ink.Text;
        sheet.Plot.Grid.YAxisStyle.IsVisible = false;
        sheet.Plot.Add.VerticalLine(0, 1, Ink.Muted);
        for (int i = 0; i < rungs.Count; i++)
        {
            DrawRung(sheet, rungs[i], -i);
        }

        return sheet.Plot;
    }

    /// <summary>Whether there is anything to draw.</summary>
    public static bool CanDraw(PlotInput input) => Rungs(input).Count > 1;

    private static void DrawRung(Sheet sheet, Rung rung, double y)
    {
        if (rung.High > rung.Low)
        {
            sheet.Line([new(rung.Low, y), new(rung.High, y)], rung.Color.WithAlpha(0.5), 9);
        }

        Marker mark = sheet.Plot.Add.Marker(rung.Value, y, rung.IsLimit ? MarkerShape.VerticalBar : MarkerShape.FilledCircle, rung.IsLimit ? 22 : 10, rung.Color);
        mark.MarkerLineWidth = rung.IsLimit ? 4 : 0;
        // Suction is labelled beyond the line at zero: before it stand the names, and a figure would lose its sign there.
        Text note = sheet.Note(rung.Label, Math.Max(0, rung.High), y, Alignment.MiddleLeft, Ink.Text);
        note.OffsetX = 9;
    }

    private static List<Rung> Rungs(PlotInput input)
    {
        PressureSummary pressure = input.Analysis.Pressure;
        PipeCheck pipe = input.Analysis.Pipe;
        var rungs = new List<Rung>();
        Add(rungs, Phrases.Say("plots.deepest-suction"), pressure.SuctionMinPa, Ink.Orange);
        Add(rungs, Phrases.Say("plots.rest"), pressure.StaticPa, Ink.Blue);
        Add(rungs, Phrases.Say("plots.delivery"), pressure.Delivery, Ink.Green);
        if (pressure.PeakMedianPa is { } median && pressure.PeakMaxPa is { } max)
        {
            rungs.Add(new Rung(Phrases.Say("plots.peaks-usual-highest"), median * 1e-5, median * 1e-5, max * 1e-5, Label(max), Ink.Vermilion, false));
        }

        Add(rungs, Phrases.Say("plots.estimated-peak"), pressure.PeakTrue, Ink.Vermilion);
        Add(rungs, input.Analysis.Pipe.CeilingIsMeasured ? Phrases.Say("plots.ceiling-static-ceiling") : Phrases.Say("plots.ceiling-expected"), pressure.PeakCeiling, Ink.Muted);
        Add(rungs, Phrases.Say("plots.pipes-limit"), pipe.AllowablePa, Ink.Text, isLimit: true);
        Add(rungs, Phrases.Say("plots.pipe-rated"), pipe.RatedPa, Ink.Text, isLimit: true);
        return rungs;
    }

    private static void Add(List<Rung> rungs, string name, double? pascal, Color color, bool isLimit = false)
    {
        if (pascal is { } p && double.IsFinite(p))
        {
            rungs.Add(new Rung(name, p * 1e-5, p * 1e-5, p * 1e-5, Label(p), color, isLimit));
        }
    }

    private static void Add(List<Rung> rungs, string name, Figure? figure, Color color)
    {
        if (figure is { } f && double.IsFinite(f.Value) && double.IsFinite(f.U))
        {
            rungs.Add(new Rung(name, f.Value * 1e-5, (f.Value - f.U) * 1e-5, (f.Value + f.U) * 1e-5, Label(f.Value), color, false));
        }
    }

    private static string Label(double pascal) => Show.Of(Kind.Pressure, pascal)!.Value.Metric.ToString();

    private sealed record Rung(string Name, double Value, double Low, double High, string Label, Color Color, bool IsLimit);
}
