using Clackbeat.Report.Plots;
using Clackbeat.Signal.Figures;
using Clackbeat.Words;
using ScottPlot;

namespace Clackbeat.Report.Twins;

/// <summary>A foretold figure over a range of settings, with its band, and the ram as it is.</summary>
internal static class SettingPlot
{
    private const double Room = 0.06;
    private const float Mark = 14;

    public static Plot Draw(
        string label, SettingAxis axis, Figure? now, double unit, IReadOnlyList<TriedChange> tried, Func<TriedChange, Figure?> figure, Frame frame)
    {
        var sheet = new Sheet(frame);
        (double At, double Value, double Low, double High)[] points = [.. tried
            .Where(t => figure(t) is not null)
            .Select(t => (t.At, figure(t)!.Value))
            .Select(p => (p.At, unit * p.Value.Value, unit * Math.Max(0, p.Value.Value - p.Value.U), unit * (p.Value.Value + p.Value.U)))
            .OrderBy(p => p.At)];
        double[] ends = [.. tried.Select(t => t.At), axis.Now];
        double pad = Room * (ends.Max() - ends.Min());
        double high = points.Select(p => p.High).Append(unit * (now?.Value ?? 0)).Max();
        sheet.ValueAxis(0, 1.08 * high, label);
        (double from, double to) = (ends.Min() - pad, ends.Max() + pad);
        sheet.Plot.Axes.SetLimitsX(from, to);
        sheet.Plot.Axes.Bottom.TickGenerator = Ticks.For(from, to, frame.IsNarrow ? 4 : 8);
        sheet.Plot.Axes.Bottom.Label.Text = axis.Unit.Length > 0 ? Phrases.Say("tried.along", ("unit", axis.Unit)) : Phrases.Say("tried.change-axis");
        sheet.Band([.. points.Select(p => p.At)], [.. points.Select(p => p.Low)], [.. points.Select(p => p.High)], Ink.Sky, 0.35);
        sheet.Line([.. points.Select(p => new Coordinates(p.At, p.Value))], Ink.Blue, 2.4f);
        if (now is { } n)
        {
            sheet.Plot.Add.Marker(axis.Now, unit * n.Value, MarkerShape.FilledDiamond, Mark, Ink.Green);
            bool right = axis.Now < 0.5 * (from + to);
            sheet.Note(Phrases.Say("tried.as-is"), axis.Now, unit * n.Value, right ? Alignment.UpperLeft : Alignment.UpperRight, Ink.Text);
        }

        return sheet.Plot;
    }
}
