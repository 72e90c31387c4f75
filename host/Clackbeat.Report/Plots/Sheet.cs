using Clackbeat.Hydraulics.Water;
using Clackbeat.Report.Fonts;
using Clackbeat.Signal.Figures;
using Clackbeat.Words;
using ScottPlot;
using ScottPlot.Plottables;

namespace Clackbeat.Report.Plots;

/// <summary>An empty plot in this report's look, and the marks that several plots share.</summary>
internal sealed class Sheet
{
    public const float FontSize = 14;

    private static readonly double PsiPerBar = 1e5 / Constants.PsiPa;
    private readonly Frame _frame;

    public Sheet(Frame frame)
    {
        PlotFontResolver.Register();
        _frame = frame;
        Plot = new Plot();
        Plot.Font.Set(ReportFont.Family);
        Plot.FigureBackground.Color = Colors.Transparent;
        Plot.DataBackground.Color = Colors.Transparent;
        Plot.Axes.Color(Ink.Muted);
        Plot.Axes.Top.FrameLineStyle.IsVisible = false;
        Plot.Axes.Left.FrameLineStyle.IsVisible = false;
        Plot.Axes.Right.FrameLineStyle.IsVisible = false;
        Plot.Grid.MajorLineColor = Ink.Grid;
        foreach (IAxis axis in Plot.Axes.GetAxes())
        {
            axis.TickLabelStyle.FontSize = FontSize;
            axis.TickLabelStyle.ForeColor = Ink.Muted;
            axis.MajorTickStyle.Length = axis == Plot.Axes.Bottom ? 4 : 0;
            axis.MajorTickStyle.Color = Ink.Muted;
            axis.MinorTickStyle.Length = 0;
            axis.Label.FontSize = FontSize;
            axis.Label.Bold = false;
            axis.Label.ForeColor = Ink.Muted;
        }
    }

    public Plot Plot { get; }

    /// <summary>About how many data units a pixel covers, for leaving out what no eye could see.</summary>
    public (double X, double Y) Pixel(double width, double height) => (width / (_frame.Width - 110), height / (_frame.Height - 70));

    /// <summary>
    /// Words with no shape the typeface lacks: it has no minus sign U+2212, but an en dash that looks the same.
    /// </summary>
    public static string Drawable(string words) => words.Replace('\u2212', '\u2013');

    /// <summary>Time along the bottom, in the unit a person would count such a stretch in.</summary>
    public void TimeAxis(double lowS, double highS, string label)
    {
        (double factor, string unit) = (highS - lowS) switch
        {
            < 600 => (1.0, "s"),
            < 21_600 => (1.0 / 60, "min"),
            < 259_200 => (1.0 / 3600, "h"),
            _ => (1.0 / 86_400, Phrases.Say("plots.days")),
        };
        Plot.Axes.SetLimitsX(lowS, highS);
        Plot.Axes.Bottom.TickGenerator = Ticks.For(lowS, highS, _frame.IsNarrow ? 4 : 8, factor);
        Plot.Axes.Bottom.Label.Text = $"{label} ({unit})";
    }

    public void ValueAxis(double low, double high, string label)
    {
        Plot.Axes.SetLimitsY(low, high);
        Plot.Axes.Left.TickGenerator = Ticks.For(low, high, 5);
        Plot.Axes.Left.Label.Text = label;
    }

    /// <summary>Bar on the left, psi on the right.</summary>
    public void PressureAxis(double lowBar, double highBar)
    {
        ValueAxis(lowBar, highBar, Phrases.Say("plots.pressure-bar"));
        // An axis that nothing is drawn on has no range of its own.
        Plot.Axes.SetLimitsY(lowBar, highBar, Plot.Axes.Right);
        Plot.Axes.Right.TickGenerator = Ticks.For(lowBar, highBar, 5, PsiPerBar);
        Plot.Axes.Right.Label.Text = "psi";
        Plot.Axes.Right.MinimumSize = 46;
    }

    /// <summary>Pressure from left to right: bar below, psi above.</summary>
    public void PressureAcross(double lowBar, double highBar, string label)
    {
        int about = _frame.IsNarrow ? 4 : 8;
        Plot.Axes.SetLimitsX(lowBar, highBar);
        Plot.Axes.SetLimitsX(lowBar, highBar, Plot.Axes.Top);
        Plot.Axes.Bottom.TickGenerator = Ticks.For(lowBar, highBar, about);
        Plot.Axes.Bottom.Label.Text = $"{label} (bar)";
        Plot.Axes.Top.TickGenerator = Ticks.For(lowBar, highBar, about, PsiPerBar);
        Plot.Axes.Top.Label.Text = "psi";
    }

    public void Line(IReadOnlyList<Coordinates> points, Color color, float width, LinePattern? pattern = null)
    {
        if (points.Count < 2)
        {
            return;
        }

        Scatter line = Plot.Add.ScatterLine(points.ToArray(), color);
        line.LineWidth = width;
        line.LinePattern = pattern ?? LinePattern.Solid;
    }

    /// <summary>A level across the whole plot, its name standing on it and ending at an abscissa.</summary>
    public void Level(double y, string name, Color color, LinePattern pattern, double nameEndsAt)
    {
        Plot.Add.HorizontalLine(y, 1.6f, color, pattern);
        Note(name, nameEndsAt, y, Alignment.LowerRight, color);
    }

    public ScottPlot.Plottables.Text Note(string text, double x, double y, Alignment alignment, Color color, bool bold = false)
    {
        ScottPlot.Plottables.Text note = Plot.Add.Text(Drawable(text), x, y);
        note.LabelFontColor = color;
        note.LabelFontName = ReportFont.Family;
        note.LabelFontSize = FontSize;
        note.LabelBold = bold;
        note.LabelAlignment = alignment;
        note.OffsetY = alignment is Alignment.LowerLeft or Alignment.LowerRight or Alignment.LowerCenter ? -2 : 0;
        note.OffsetX = alignment is Alignment.LowerRight or Alignment.MiddleRight or Alignment.UpperRight ? -4
            : alignment is Alignment.LowerLeft or Alignment.MiddleLeft or Alignment.UpperLeft ? 4 : 0;
        return note;
    }

    /// <summary>A shaded stretch of time.</summary>
    public void Stretch(double from, double to, Color color, double alpha)
    {
        HorizontalSpan span = Plot.Add.HorizontalSpan(from, to, color.WithAlpha(alpha));
        span.LineStyle.Width = 0;
    }

    /// <summary>Shades where the record has no samples, and says so where there is room.</summary>
    public void Gaps(IEnumerable<Clackbeat.Signal.Figures.Gap> gaps)
    {
        AxisLimits limits = Plot.Axes.GetLimits();
        foreach (Gap gap in gaps)
        {
            double from = Math.Max(gap.StartS, limits.Left);
            double to = Math.Min(gap.StartS + gap.LengthS, limits.Right);
            if (to <= from)
            {
                continue;
            }

            // A gap thinner than a hair would vanish, and with it the fact.
            double least = (limits.Right - limits.Left) / 400;
            Stretch(from, Math.Max(to, from + least), Ink.Gap, 0.75);
            if (to - from > (limits.Right - limits.Left) * (_frame.IsNarrow ? 0.2 : 0.1))
            {
                Note(Phrases.Say("plots.no-data"), (from + to) / 2, limits.Bottom, Alignment.LowerCenter, Ink.Muted);
            }
        }
    }

    /// <summary>A flag at each instant at which something was done to the ram; its number stands in the list beside the plot.</summary>
    public void Flags(IReadOnlyList<Clackbeat.Records.Samples.RecordMark> marks)
    {
        AxisLimits limits = Plot.Axes.GetLimits();
        for (int i = 0; i < marks.Count; i++)
        {
            double at = marks[i].TimeS;
            if (at < limits.Left || at > limits.Right)
            {
                continue;
            }

            Plot.Add.VerticalLine(at, 1.4f, Ink.Text, LinePattern.DenselyDashed);
            Plot.Add.Marker(at, limits.Top, MarkerShape.FilledTriangleDown, 12, Ink.Text);
            Note((i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture), at, limits.Top, Alignment.UpperLeft, Ink.Text, bold: true);
        }
    }

    /// <summary>A filled band between two curves over the same abscissae.</summary>
    public void Band(IReadOnlyList<double> x, IReadOnlyList<double> low, IReadOnlyList<double> high, Color color, double alpha)
    {
        var outline = new List<Coordinates>(x.Count * 2);
        for (int i = 0; i < x.Count; i++)
        {
            outline.Add(new Coordinates(x[i], high[i]));
        }

        for (int i = x.Count - 1; i >= 0; i--)
        {
            outline.Add(new Coordinates(x[i], low[i]));
        }

        Polygon band = Plot.Add.Polygon(outline.ToArray());
        band.FillColor = color.WithAlpha(alpha);
        band.LineStyle.Width = 0;
    }
}
