using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Analysis;
using Clackbeat.Words;
using ScottPlot;
using ScottPlot.Plottables;
using ScottPlot.TickGenerators;

namespace Clackbeat.Report.Plots;

/// <summary>How much of the time the body stands at each pressure, against what the pipe may bear.</summary>
internal static class LevelPlot
{
    private const double Bar = 1e-5;
    private const int MostBars = 110;

    // Farther than this many times the highest pressure a limit would squash the picture; it is then named at the edge.
    private const double FarthestLimit = 12;

    /// <summary>Whether the record holds anything to draw.</summary>
    public static bool CanDraw(PlotInput input) => input.Analysis.Load is { } load && load.SamplesAtLevel.Any(n => n > 0);

    public static Plot Draw(PlotInput input, Frame frame)
    {
        LoadHistory load = input.Analysis.Load!;
        (double low, double high) = Reach(load);
        List<Mark> marks = Marks(input);
        double farthest = FarthestLimit * high;
        double right = 1.06 * Math.Max(high, marks.Where(m => m.High <= farthest).Select(m => m.High).DefaultIfEmpty(high).Max());
        double left = low - (0.03 * (right - low));
        (double X, double Share)[] bars = Shares(load);
        double floor = Math.Floor(Math.Log10(bars.Where(b => b.Share > 0).Min(b => b.Share)));

        var sheet = new Sheet(frame);
        // Two decades above 100 % leave room for the names of the limits.
        double top = frame.IsNarrow ? 3.2 : 2.4;
        sheet.Plot.Axes.SetLimits(left, right, floor, 2 + top);
        sheet.Plot.Axes.Left.TickGenerator = Decades(floor);
        sheet.Plot.Axes.Left.Label.Text = Phrases.Say("plots.share-time");
        sheet.PressureAcross(left, right, Phrases.Say("plots.gauge-pressure"));
        double width = bars.Length > 1 ? bars[1].X - bars[0].X : high - low;
        foreach ((double x, double share) in bars.Where(b => b.Share > 0))
        {
            Rectangle bar = sheet.Plot.Add.Rectangle(x, x + width, floor, Math.Log10(share));
            bar.FillColor = Ink.Sky;
            bar.LineWidth = 0;
        }

        Draw(sheet, marks, (left, right), floor, top);
        return sheet.Plot;
    }

    private static (double Low, double High) Reach(LoadHistory load)
    {
        (int first, int last) = Ends(load);
        return ((load.LowPa + (first * load.LevelPa)) * Bar, (load.LowPa + ((last + 1) * load.LevelPa)) * Bar);
    }

    private static (int First, int Last) Ends(LoadHistory load)
    {
        int[] filled = [.. Enumerable.Range(0, load.SamplesAtLevel.Count).Where(i => load.SamplesAtLevel[i] > 0)];
        return (filled[0], filled[^1]);
    }

    // Bars of whole levels: any other width would beat against them and draw a comb.
    private static (double X, double Share)[] Shares(LoadHistory load)
    {
        (int first, int last) = Ends(load);
        int levels = 1 + ((last - first) / MostBars);
        double all = load.SamplesAtLevel.Sum();
        return
        [
            .. Enumerable.Range(0, 1 + ((last - first) / levels)).Select(bar => (
                (load.LowPa + ((first + (bar * levels)) * load.LevelPa)) * Bar,
                100 * load.SamplesAtLevel.Skip(first + (bar * levels)).Take(levels).Sum() / all)),
        ];
    }

    private static NumericManual Decades(double floor)
    {
        var ticks = new NumericManual();
        for (int decade = (int)floor; decade <= 2; decade++)
        {
            ticks.AddMajor(decade, $"{Wording.Digits.Fixed(Math.Pow(10, decade), Math.Max(0, -decade))} %");
        }

        return ticks;
    }

    private static List<Mark> Marks(PlotInput input)
    {
        PipeCheck pipe = input.Analysis.Pipe;
        var marks = new List<Mark>();
        void Add(string name, double? pascal, double uPa, Color color, LinePattern pattern)
        {
            if (pascal is { } p && double.IsFinite(p + uPa))
            {
                marks.Add(new Mark(name, p * Bar, (p - uPa) * Bar, (p + uPa) * Bar, color, pattern));
            }
        }

        Add(Phrases.Say("plots.estimated-peak-2"), pipe.PeakPa, pipe.PeakUncertaintyPa ?? 0, Ink.Blue, LinePattern.Solid);
        Add(pipe.CeilingIsMeasured ? Phrases.Say("plots.ceiling") : Phrases.Say("plots.ceiling-expected-2"), pipe.CeilingPa, pipe.CeilingUncertaintyPa ?? 0, Ink.Muted, LinePattern.Dotted);
        bool derated = pipe.RatedPa is { } rated && pipe.AllowablePa is { } allowed && Math.Abs(rated - allowed) > 0.01 * allowed;
        Add(derated ? Phrases.Say("plots.allowed-again-again") : Phrases.Say("plots.rating-allowed-again-again"), pipe.AllowablePa, 0, Ink.Vermilion, LinePattern.Dashed);
        Add(Phrases.Say("plots.rating"), derated || pipe.AllowablePa is null ? pipe.RatedPa : null, 0, Ink.Text, LinePattern.DenselyDashed);
        return marks;
    }

    private static void Draw(Sheet sheet, List<Mark> marks, (double Left, double Right) x, double floor, double room)
    {
        double step = room / (marks.Count + 0.5);
        for (int i = 0; i < marks.Count; i++)
        {
            Mark mark = marks[i];
            double y = 2 + room - (step * (i + 0.5));
            if (mark.At > x.Right)
            {
                sheet.Note(Phrases.Say("plots.bar-beyond-picture", ("name", mark.Name), ("at", Wording.Digits.Significant(mark.At, 3))), x.Right, y, Alignment.MiddleRight, mark.Color);
                continue;
            }

            if (mark.High > mark.Low)
            {
                Rectangle band = sheet.Plot.Add.Rectangle(mark.Low, Math.Min(mark.High, x.Right), floor, y);
                band.FillColor = mark.Color.WithAlpha(0.18);
                band.LineWidth = 0;
            }

            sheet.Line([new(mark.At, floor), new(mark.At, y)], mark.Color, 2, mark.Pattern);
            bool toTheLeft = mark.At > (x.Left + x.Right) / 2;
            sheet.Note(mark.Name, mark.At, y, toTheLeft ? Alignment.MiddleRight : Alignment.MiddleLeft, mark.Color);
        }
    }

    private sealed record Mark(string Name, double At, double Low, double High, Color Color, LinePattern Pattern);
}
