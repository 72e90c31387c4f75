using Clackbeat.Words;
using ScottPlot;

namespace Clackbeat.Report.Plots;

/// <summary>A day of a plotted figure, in the unit of the axis.</summary>
/// <param name="Day">The day.</param>
/// <param name="Value">Median.</param>
/// <param name="Low">Lower quartile.</param>
/// <param name="High">Upper quartile.</param>
public readonly record struct PlottedDay(DateOnly Day, double Value, double Low, double High)
{
    /// <summary>True where the value is an upper bound.</summary>
    public bool IsUpperBound { get; init; }
}

/// <summary>Something that is marked on the time axis.</summary>
/// <param name="Day">The day.</param>
/// <param name="Words">What stands beside it.</param>
/// <param name="ByHand">A keeper's mark; otherwise a change that was found.</param>
public sealed record PlottedMark(DateOnly Day, string Words, bool ByHand);

/// <summary>A figure over days to years: median and quartiles of each day, marks, and gaps left empty. Upper bounds are dashed and named.</summary>
public static class TrendPlot
{
    /// <summary>Draws it as an SVG picture.</summary>
    /// <param name="label">The figure with its unit.</param>
    /// <param name="days">The days, oldest first; two at least.</param>
    /// <param name="marks">Marks.</param>
    public static string Svg(string label, IReadOnlyList<PlottedDay> days, IReadOnlyList<PlottedMark> marks)
    {
        using Plot plot = Draw(label, days, marks, Frame.Wide);
        return plot.GetSvgXml(Frame.Wide.Width, Frame.Wide.Height);
    }

    internal static Plot Draw(string label, IReadOnlyList<PlottedDay> days, IReadOnlyList<PlottedMark> marks, Frame frame)
    {
        var sheet = new Sheet(frame);
        (double first, double last) = (days[0].Day.DayNumber, Math.Max(days[^1].Day.DayNumber, days[0].Day.DayNumber + 1));
        (double low, double high) = (days.Min(d => d.Low), days.Max(d => d.High));
        double pad = Math.Max(0.1 * (high - low), 1e-3 * Math.Max(Math.Abs(high), 1e-9));

        // Marks are named above the curve, on three lines in turn.
        double top = high + pad + (Math.Min(3, marks.Count) * LineShare(frame) * (high - low));
        sheet.ValueAxis(low - pad, top, label);
        sheet.Plot.Axes.SetLimitsX(first, last);
        sheet.Plot.Axes.Bottom.TickGenerator = DateTicks.For(days[0].Day, (int)(last - first), frame.IsNarrow ? 5 : 13);
        foreach (List<PlottedDay> run in Runs(days))
        {
            double[] x = [.. run.Select(d => (double)d.Day.DayNumber)];
            sheet.Band(x, [.. run.Select(d => d.Low)], [.. run.Select(d => d.High)], Ink.Blue, 0.25);
            sheet.Line([.. run.Select(d => new Coordinates(d.Day.DayNumber, d.Value))], Ink.Blue, 1.8f, run[0].IsUpperBound ? LinePattern.Dashed : LinePattern.Solid);
        }

        if (days.Any(d => d.IsUpperBound))
        {
            sheet.Note(Phrases.Say("plots.dashed-most"), last, low - pad, Alignment.LowerRight, Ink.Blue);
        }

        for (int i = 0; i < marks.Count; i++)
        {
            PlottedMark mark = marks[i];
            Color color = mark.ByHand ? Ink.Green : Ink.Vermilion;
            sheet.Plot.Add.VerticalLine(mark.Day.DayNumber, 1.4f, color, mark.ByHand ? LinePattern.Solid : LinePattern.Dashed);
            bool right = mark.Day.DayNumber < (first + last) / 2;
            sheet.Note(mark.Words, mark.Day.DayNumber, top - (i % 3 * (top - low) * LineShare(frame)), right ? Alignment.UpperLeft : Alignment.UpperRight, color);
        }

        return sheet.Plot;
    }

    // A line of words as a share of the plot's height.
    private static double LineShare(Frame frame) => 1.35 * Sheet.FontSize / Math.Max(frame.Height - 60, 60);

    private static IEnumerable<List<PlottedDay>> Runs(IReadOnlyList<PlottedDay> days)
    {
        var run = new List<PlottedDay>();
        foreach (PlottedDay day in days)
        {
            // A line across days nobody measured would claim what nobody saw.
            if (run.Count > 0 && (day.Day.DayNumber > run[^1].Day.DayNumber + 1 || day.IsUpperBound != run[^1].IsUpperBound))
            {
                yield return run;
                run = [];
            }

            run.Add(day);
        }

        yield return run;
    }
}
