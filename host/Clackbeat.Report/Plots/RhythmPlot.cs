using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Figures;
using Clackbeat.Words;
using MathNet.Numerics.Statistics;
using ScottPlot;
using ScottPlot.Plottables;

namespace Clackbeat.Report.Plots;

/// <summary>One value of every beat along the record: single dots, or, where they would run together, the spread of each stretch.</summary>
internal static class RhythmPlot
{
    private const int MostDots = 500;
    private const int Stretches = 160;

    public static Plot DrawIntervals(PlotInput input, Frame frame)
    {
        var sheet = new Sheet(frame);
        List<Coordinates> points = Points(input, b => b.IntervalS);
        (double low, double high) = Around(points, 0.2);
        sheet.ValueAxis(Math.Max(0, low), high, Phrases.Say("plots.beat-beat-s"));
        Along(input, sheet, points, Ink.Blue);
        return sheet.Plot;
    }

    public static Plot DrawPeaks(PlotInput input, Frame frame)
    {
        var sheet = new Sheet(frame);
        List<Coordinates> points = Points(input, b => b.PeakPa * 1e-5);
        (double low, double high) = Around(points, 0.15);
        bool limitInView = input.LimitBar is { } near && near < high * 1.5 && near > 0;
        sheet.PressureAxis(Math.Min(low, 0), limitInView ? Math.Max(high, input.LimitBar!.Value * 1.12) : high);
        Along(input, sheet, points, Ink.Vermilion);
        if (limitInView)
        {
            sheet.Level(input.LimitBar!.Value, input.LimitName, Ink.Text, LinePattern.DenselyDashed, sheet.Plot.Axes.GetLimits().Right);
        }

        return sheet.Plot;
    }

    public static Plot DrawVolumes(PlotInput input, Frame frame)
    {
        var sheet = new Sheet(frame);
        List<Coordinates> points = Points(input, b => b.Flow is { } flow ? flow.DeliveredM3 * 1e3 : double.NaN);
        (double low, double high) = Around(points, 0.2);
        sheet.ValueAxis(Math.Min(0, low), high, Phrases.Say("plots.delivered-beat-l"));
        Along(input, sheet, points, Ink.Green);
        return sheet.Plot;
    }

    private static List<Coordinates> Points(PlotInput input, Func<Beat, double> value) =>
        [.. input.Analysis.BeatList.Select(b => new Coordinates(b.ClosureS, value(b))).Where(p => double.IsFinite(p.Y))];

    // At least a share of the value itself, so that a steady ram looks steady and not like noise blown up.
    private static (double Low, double High) Around(List<Coordinates> points, double share)
    {
        double low = points.Min(p => p.Y);
        double high = points.Max(p => p.Y);
        double pad = Math.Max(0.15 * (high - low), share * Math.Max(Math.Abs(high), 1e-9));
        return (low - pad, high + pad);
    }

    private static void Along(PlotInput input, Sheet sheet, List<Coordinates> points, Color color)
    {
        (double start, double end) = Span(input);
        sheet.TimeAxis(start, end, Phrases.Say("plots.time-start-record"));
        sheet.Gaps(input.Analysis.Input.Gaps);
        sheet.Flags(input.Analysis.Input.Marks);
        if (points.Count <= MostDots)
        {
            Markers dots = sheet.Plot.Add.Markers(points, MarkerShape.FilledCircle, points.Count > 120 ? 4 : 6, color);
            dots.MarkerStyle.LineWidth = 0;
            return;
        }

        double step = (end - start) / Stretches;
        foreach (List<Band> run in Runs(points, start, step))
        {
            sheet.Band([.. run.Select(s => s.X)], [.. run.Select(s => s.Low)], [.. run.Select(s => s.High)], color, 0.3);
            sheet.Line([.. run.Select(s => new Coordinates(s.X, s.Middle))], color, 2);
        }
    }

    /// <summary>First and last instant of the record.</summary>
    internal static (double Start, double End) Span(PlotInput input)
    {
        Envelope whole = input.Analysis.Picture.Whole;
        double start = Math.Min(whole.StartS, input.Analysis.BeatList.Count > 0 ? input.Analysis.BeatList[0].ClosureS : whole.StartS);
        double end = Math.Max(start + input.Analysis.Input.DurationS, whole.StartS + (whole.StepS * whole.LowPa.Count));
        return (start, end > start ? end : start + 1);
    }

    private static IEnumerable<List<Band>> Runs(List<Coordinates> points, double start, double step)
    {
        var run = new List<Band>();
        long last = long.MinValue;
        foreach (IGrouping<long, Coordinates> group in points.GroupBy(p => (long)((p.X - start) / step)))
        {
            // A stretch without beats stays empty: a line across it would claim what nobody saw.
            if (run.Count > 0 && group.Key > last + 1)
            {
                yield return run;
                run = [];
            }

            double[] sorted = [.. group.Select(p => p.Y).Order()];
            run.Add(new Band(start + ((group.Key + 0.5) * step), sorted[0], SortedArrayStatistics.Median(sorted), sorted[^1]));
            last = group.Key;
        }

        if (run.Count > 0)
        {
            yield return run;
        }
    }

    private readonly record struct Band(double X, double Low, double Middle, double High);
}
