using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Analysis;
using Clackbeat.Words;
using ScottPlot;
using ScottPlot.Plottables;

namespace Clackbeat.Report.Plots;

/// <summary>The rainflow matrix: how often swings of each range come about each mean, and where the pipe's limits lie.</summary>
internal static class RainflowPlot
{
    // Beyond the picture, which has no room to say so on a phone.
    private const string Short = "plots.bar-beyond-short";
    private const double Bar = 1e-5;
    private const int CellsAcross = 44;

    // Farther than this many peaks a limit would squash the picture; it is then named at the edge.
    private const double FarthestLimit = 3;

    // Seven classes of Brewer's YlGnBu without the palest (C. A. Brewer, colorbrewer2.org): told apart by colour-blind
    // readers, and ever darker, so that a grey print keeps the order.
    private static (double MostPerHour, string Name, Color Color)[] Classes =>
    [
        (1, Phrases.Say("plots.under-1"), new Color(0xC7, 0xE9, 0xB4)),
        (10, Phrases.Say("plots.1-10"), new Color(0x7F, 0xCD, 0xBB)),
        (100, Phrases.Say("plots.10-100"), new Color(0x41, 0xB6, 0xC4)),
        (1000, Phrases.Say("plots.100-1000"), new Color(0x1D, 0x91, 0xC0)),
        (10_000, Phrases.Say("plots.1000-10-000"), new Color(0x22, 0x5E, 0xA8)),
        (double.PositiveInfinity, Phrases.Say("plots.over-10-000"), new Color(0x0C, 0x2C, 0x84)),
    ];

    /// <summary>Whether the record holds any swing to draw.</summary>
    public static bool CanDraw(PlotInput input) =>
        input.Analysis.Load is { BeatingS: > 0, Cycles.TotalCount: > 0 };

    public static Plot Draw(PlotInput input, Frame frame)
    {
        LoadHistory load = input.Analysis.Load!;
        List<RainflowCycle> cycles = [.. load.Cycles.Cycles()];
        double top = 1.12 * load.Cycles.LargestRange * Bar;
        double left = Math.Min(-1.1, cycles.Min(c => c.Mean) * Bar);
        double peak = cycles.Max(c => c.Mean + (c.Range / 2)) * Bar;
        // A limit slants in from the right; one within a few peaks is shown along most of its way.
        double right = Limits(input).Where(l => l.Level <= FarthestLimit * peak).Select(l => l.Level - (0.2 * top)).Append(peak).Max();

        var sheet = new Sheet(frame);
        sheet.PressureAxis(0, top);
        sheet.Plot.Axes.Left.Label.Text = Phrases.Say("plots.size-swing-bar");
        sheet.PressureAcross(left, right, Phrases.Say("plots.middle-swing-gauge"));
        Cells(sheet, cycles, load.BeatingS, (left, right), top);
        Draw(sheet, input, (left, right), top, frame);
        Key(sheet, frame, (left, right), top);
        return sheet.Plot;
    }

    private static void Cells(Sheet sheet, List<RainflowCycle> cycles, double beatingS, (double Left, double Right) x, double top)
    {
        double width = (x.Right - x.Left) / CellsAcross;
        double height = top / CellsAcross;
        foreach (IGrouping<(int X, int Y), RainflowCycle> cell in cycles.GroupBy(c => (X: (int)((c.Mean * Bar - x.Left) / width), Y: (int)(c.Range * Bar / height))))
        {
            double perHour = cell.Sum(c => c.Count) * 3600 / beatingS;
            double left = x.Left + (cell.Key.X * width);
            Rectangle mark = sheet.Plot.Add.Rectangle(left, left + width, cell.Key.Y * height, (cell.Key.Y + 1) * height);
            mark.FillColor = Classes.First(c => perHour <= c.MostPerHour).Color;
            mark.LineColor = Ink.Grid;
            mark.LineWidth = 0.5f;
        }
    }

    private static List<(double Level, string Name, Color Color, LinePattern Pattern)> Limits(PlotInput input)
    {
        PipeCheck pipe = input.Analysis.Pipe;
        bool derated = pipe.RatedPa is { } rated && pipe.AllowablePa is { } allowed && Math.Abs(rated - allowed) > 0.01 * allowed;
        (double? Pa, string Name, Color Color, LinePattern Pattern)[] all =
        [
            (pipe.AllowablePa, derated ? Phrases.Say("plots.allowed-again-again") : Phrases.Say("plots.rating-allowed-again-again"), Ink.Vermilion, LinePattern.Dashed),
            (derated || pipe.AllowablePa is null ? pipe.RatedPa : null, Phrases.Say("plots.rating"), Ink.Text, LinePattern.DenselyDashed),
            (pipe.CeilingPa, pipe.CeilingIsMeasured ? Phrases.Say("plots.ceiling") : Phrases.Say("plots.ceiling-expected-2"), Ink.Muted, LinePattern.Dotted),
        ];
        return [.. all.Where(l => l.Pa is not null).Select(l => (l.Pa!.Value * Bar, l.Name, l.Color, l.Pattern))];
    }

    // A swing of range r about a mean m peaks at m + r/2 and bottoms at m − r/2: limits are slanting lines here.
    private static void Draw(Sheet sheet, PlotInput input, (double Left, double Right) x, double top, Frame frame)
    {
        sheet.Line([new(-1, 0), new(-1 + (top / 2), top)], Ink.Orange, 2, LinePattern.Dotted);
        sheet.Note(Phrases.Say("plots.full-suction"), -1 + (0.2 * top), 0.4 * top, Alignment.MiddleRight, Ink.Orange);

        // On a phone the key takes the whole width at the top.
        double row = frame.IsNarrow ? 0.5 : 0.95;
        foreach ((double level, string name, Color color, LinePattern pattern) in Limits(input))
        {
            double end = level - (top / 2);
            if (end >= x.Right)
            {
                sheet.Note(Phrases.Say(frame.IsNarrow ? Short : "plots.bar-beyond-picture-2", ("name", name), ("level", Wording.Digits.Significant(level, 3))), x.Right, row * top, Alignment.MiddleRight, color);
            }
            else
            {
                sheet.Line([new(level, 0), new(end, top)], color, 2, pattern);
                sheet.Note(name, level - (row * top / 2), row * top, Alignment.MiddleRight, color);
            }

            row -= 0.08;
        }
    }

    private static void Key(Sheet sheet, Frame frame, (double Left, double Right) x, double top)
    {
        double row = top * (frame.IsNarrow ? 0.062 : 0.066);
        double at = x.Left + (0.015 * (x.Right - x.Left));
        double swatch = (x.Right - x.Left) * (frame.IsNarrow ? 0.05 : 0.025);
        sheet.Note(Phrases.Say("plots.swings-hour"), at, top - (0.6 * row), Alignment.MiddleLeft, Ink.Text, bold: true);
        for (int i = 0; i < Classes.Length; i++)
        {
            double y = top - (row * (i + 1.6));
            Rectangle mark = sheet.Plot.Add.Rectangle(at, at + swatch, y - (0.35 * row), y + (0.35 * row));
            mark.FillColor = Classes[i].Color;
            mark.LineColor = Ink.Grid;
            mark.LineWidth = 0.5f;
            sheet.Note(Classes[i].Name, at + swatch, y, Alignment.MiddleLeft, Ink.Text);
        }
    }
}
