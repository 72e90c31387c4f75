using Clackbeat.Signal.Figures;
using Clackbeat.Words;
using ScottPlot;

namespace Clackbeat.Report.Plots;

/// <summary>The whole record: what lies between the lowest and the highest sample of each short stretch.</summary>
internal static class RecordPlot
{
    public static Plot Draw(PlotInput input, Frame frame)
    {
        List<List<Column>> runs = [.. Runs(input.Analysis.Picture.Whole, frame.Width)];
        double low = Math.Min(0, runs.SelectMany(r => r).Select(c => c.Low).DefaultIfEmpty(0).Min());
        double high = runs.SelectMany(r => r).Select(c => c.High).DefaultIfEmpty(1).Max();
        double pad = Math.Max(0.08 * (high - low), 0.02);

        var sheet = new Sheet(frame);
        sheet.PressureAxis(low - pad, high + pad);
        (double start, double end) = RhythmPlot.Span(input);
        sheet.TimeAxis(start, end, Phrases.Say("plots.time-start-record"));
        sheet.Gaps(input.Analysis.Input.Gaps);
        sheet.Flags(input.Analysis.Input.Marks);
        foreach (List<Column> run in runs)
        {
            double[] x = [.. run.Select(c => c.X)];
            sheet.Band(x, [.. run.Select(c => c.Low)], [.. run.Select(c => c.High)], Ink.Blue, 0.55);
            // Still water has no height to fill; its outline keeps it in sight.
            sheet.Line([.. run.Select(c => new Coordinates(c.X, c.High))], Ink.Blue, 1);
            sheet.Line([.. run.Select(c => new Coordinates(c.X, c.Low))], Ink.Blue, 1);
        }

        return sheet.Plot;
    }

    private static IEnumerable<List<Column>> Runs(Envelope whole, int most)
    {
        int join = Math.Max(1, (int)Math.Ceiling(whole.LowPa.Count / (double)most));
        var run = new List<Column>();
        for (int i = 0; i < whole.LowPa.Count; i += join)
        {
            Column? column = Joined(whole, i, Math.Min(i + join, whole.LowPa.Count));
            if (column is { } c)
            {
                run.Add(c);
            }
            else if (run.Count > 0)
            {
                yield return run;
                run = [];
            }
        }

        if (run.Count > 0)
        {
            yield return run;
        }
    }

    private static Column? Joined(Envelope whole, int from, int to)
    {
        double low = double.PositiveInfinity;
        double high = double.NegativeInfinity;
        for (int i = from; i < to; i++)
        {
            if (double.IsFinite(whole.LowPa[i]) && double.IsFinite(whole.HighPa[i]))
            {
                low = Math.Min(low, whole.LowPa[i]);
                high = Math.Max(high, whole.HighPa[i]);
            }
        }

        return high < low ? null : new Column(whole.StartS + ((from + to) / 2.0 * whole.StepS), low * 1e-5, high * 1e-5);
    }

    private readonly record struct Column(double X, double Low, double High);
}
