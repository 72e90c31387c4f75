using Clackbeat.Words;
using ScottPlot;
using ScottPlot.Plottables;

namespace Clackbeat.Report.Plots;

/// <summary>An hour of the calendar.</summary>
/// <param name="Day">The day.</param>
/// <param name="Hour">0 to 23.</param>
/// <param name="BeatingShare">Share of the known time that the ram beat.</param>
/// <param name="RatePerMin">Beats a minute while it beat; null for unknown.</param>
public readonly record struct PlottedHour(DateOnly Day, int Hour, double BeatingShare, double? RatePerMin);

/// <summary>Days across, hours down: darker blue for faster beating, red where the ram stood, nothing where nobody knows.</summary>
public static class CalendarPlot
{
    private const int Shades = 5;
    private const double LegendPx = 22;

    /// <summary>Draws it as an SVG picture.</summary>
    /// <param name="hours">The known hours; two days at least.</param>
    public static string Svg(IReadOnlyList<PlottedHour> hours)
    {
        using Plot plot = Draw(hours, Frame.Wide);
        return plot.GetSvgXml(Frame.Wide.Width, Frame.Wide.Height);
    }

    internal static Plot Draw(IReadOnlyList<PlottedHour> hours, Frame frame)
    {
        var sheet = new Sheet(frame);
        (DateOnly first, DateOnly last) = (hours[0].Day, hours[^1].Day);
        double[] steps = Steps(hours);
        sheet.Plot.Axes.SetLimits(first.DayNumber, last.DayNumber + 1, 24 + Strip(frame), 0);
        sheet.Plot.Axes.Bottom.TickGenerator = DateTicks.For(first, last.DayNumber - first.DayNumber, frame.IsNarrow ? 5 : 13);
        var clock = new ScottPlot.TickGenerators.NumericManual();
        foreach (int hour in new[] { 0, 6, 12, 18, 24 })
        {
            clock.AddMajor(hour, FormattableString.Invariant($"{hour}:00"));
        }

        sheet.Plot.Axes.Left.TickGenerator = clock;
        foreach ((int shade, CoordinateRect area) in Areas(hours, steps))
        {
            Rectangle box = sheet.Plot.Add.Rectangle(area);
            box.FillColor = ColorOf(shade);
            box.LineWidth = 0;
        }

        Legend(sheet, steps, (first.DayNumber, last.DayNumber + 1), frame);
        return sheet.Plot;
    }

    // Fifths of the rates that occur, so that a slow drift shows whatever the ram's pace is.
    private static double[] Steps(IReadOnlyList<PlottedHour> hours)
    {
        double[] rates = [.. hours.Where(h => h.BeatingShare >= 0.5).Select(h => h.RatePerMin).OfType<double>().Order()];
        if (rates.Length == 0)
        {
            return [];
        }

        (double low, double high) = (rates[(int)(0.02 * (rates.Length - 1))], rates[(int)(0.98 * (rates.Length - 1))]);
        return [.. Enumerable.Range(1, Shades - 1).Select(i => low + (i * (high - low) / Shades))];
    }

    // -1 where it stood, else how fast it beat.
    private static int ShadeOf(PlottedHour hour, double[] steps) =>
        hour.BeatingShare < 0.5 ? -1 : steps.Count(step => hour.RatePerMin > step);

    private static Color ColorOf(int shade) => shade < 0 ? Ink.Vermilion : Ink.Blue.WithAlpha(0.25 + (0.75 * shade / (Shades - 1)));

    // Hours of one shade in a row are one rectangle, and days that look alike share it: a year is some hundred of them.
    private static IEnumerable<(int Shade, CoordinateRect Area)> Areas(IReadOnlyList<PlottedHour> hours, double[] steps)
    {
        var open = new Dictionary<(int From, int To, int Shade), (int First, int Last)>();
        foreach (IGrouping<DateOnly, PlottedHour> day in hours.GroupBy(h => h.Day))
        {
            HashSet<(int From, int To, int Shade)> runs = [.. Runs(day, steps)];
            foreach (KeyValuePair<(int From, int To, int Shade), (int First, int Last)> ended in open.Where(o => !runs.Contains(o.Key) || o.Value.Last != day.Key.DayNumber - 1).ToList())
            {
                yield return Area(ended.Key, ended.Value);
                open.Remove(ended.Key);
            }

            foreach ((int From, int To, int Shade) run in runs)
            {
                open[run] = (open.TryGetValue(run, out (int First, int Last) so) ? so.First : day.Key.DayNumber, day.Key.DayNumber);
            }
        }

        foreach (KeyValuePair<(int From, int To, int Shade), (int First, int Last)> left in open)
        {
            yield return Area(left.Key, left.Value);
        }
    }

    private static (int, CoordinateRect) Area((int From, int To, int Shade) run, (int First, int Last) days) =>
        (run.Shade, new CoordinateRect(days.First, days.Last + 1, run.From, run.To));

    private static IEnumerable<(int From, int To, int Shade)> Runs(IEnumerable<PlottedHour> day, double[] steps)
    {
        (int From, int To, int Shade)? run = null;
        foreach (PlottedHour hour in day)
        {
            int shade = ShadeOf(hour, steps);
            if (run is { } so && so.To == hour.Hour && so.Shade == shade)
            {
                run = (so.From, hour.Hour + 1, shade);
                continue;
            }

            if (run is { } done)
            {
                yield return done;
            }

            run = (hour.Hour, hour.Hour + 1, shade);
        }

        if (run is { } last)
        {
            yield return last;
        }
    }

    // Hours that the legend's line takes below midnight.
    private static double Strip(Frame frame) => 24 * LegendPx / Math.Max(frame.Height - 45 - LegendPx, LegendPx);

    private static void Legend(Sheet sheet, double[] steps, (double From, double To) days, Frame frame)
    {
        (double middle, double half) = (24 + (0.55 * Strip(frame)), 0.25 * Strip(frame));
        double pixel = (days.To - days.From) / (frame.Width - 110);
        double x = days.From;
        void Box(Color color)
        {
            Rectangle rectangle = sheet.Plot.Add.Rectangle(x, x + (18 * pixel), middle - half, middle + half);
            rectangle.FillColor = color;
            rectangle.LineWidth = 0;
            x += 18 * pixel;
        }

        void Say(string words)
        {
            sheet.Note(words, x, middle, Alignment.MiddleLeft, Ink.Muted);
            x += (20 + (0.58 * Sheet.FontSize * words.Length)) * pixel;
        }

        if (steps.Length > 0)
        {
            Enumerable.Range(0, Shades).ToList().ForEach(shade => Box(ColorOf(shade)));
            double step = (steps[1] - steps[0]) / 2;
            Say(frame.IsNarrow
                ? Phrases.Say("plots.rates-short", ("low", steps[0] - step), ("high", steps[^1] + step))
                : Phrases.Say("plots.rates", ("low", steps[0] - step), ("high", steps[^1] + step)));
        }

        Box(ColorOf(-1));
        Say(Phrases.Say("plots.stood"));
        if (!frame.IsNarrow)
        {
            Say(Phrases.Say("plots.blank-no-record"));
        }
    }
}
