using Clackbeat.Tuning.Search;
using Clackbeat.Words;
using ScottPlot;

namespace Clackbeat.Report.Plots;

/// <summary>A trial in a plot, in the units of its axes.</summary>
/// <param name="Setting">Setting.</param>
/// <param name="Value">Figure.</param>
/// <param name="Number">Number of the trial, from 1.</param>
/// <param name="IsBest">The one that is recommended.</param>
internal readonly record struct PlottedTrial(double Setting, double Value, int Number, bool IsBest);

/// <summary>A figure of the trials over the setting, with the curve through them; the best one is marked by shape as well as colour.</summary>
internal static class TrialsPlot
{
    private const double Room = 0.08;
    private const float Mark = 11;

    public static Plot Draw(
        string valueLabel, string settingLabel, (double Low, double High) range, IReadOnlyList<PlottedTrial> trials, IReadOnlyList<CurvePoint> curve,
        (double Value, string Name)? limit, Frame frame)
    {
        var sheet = new Sheet(frame);
        IEnumerable<double> values = [.. trials.Select(t => t.Value), .. curve.Select(c => c.High), .. curve.Select(c => c.Low)];
        double high = Math.Max(values.Max(), limit?.Value ?? double.NegativeInfinity);
        double low = Math.Min(values.Min(), 0.85 * trials.Min(t => t.Value));
        sheet.ValueAxis(low, high + (0.18 * (high - low)), valueLabel);
        double pad = Room * (range.High - range.Low);
        sheet.Plot.Axes.SetLimitsX(range.Low - pad, range.High + pad);
        sheet.Plot.Axes.Bottom.TickGenerator = Ticks.For(range.Low - pad, range.High + pad, frame.IsNarrow ? 4 : 8);
        sheet.Plot.Axes.Bottom.Label.Text = settingLabel;
        if (curve.Count > 1)
        {
            sheet.Band([.. curve.Select(c => c.Setting)], [.. curve.Select(c => c.Low)], [.. curve.Select(c => c.High)], Ink.Blue, 0.15);
            sheet.Line([.. curve.Select(c => new Coordinates(c.Setting, c.Value))], Ink.Blue, 1.8f);
        }

        if (limit is { } line)
        {
            sheet.Level(line.Value, line.Name, Ink.Vermilion, LinePattern.Dashed, range.High + pad);
        }

        foreach (PlottedTrial trial in trials)
        {
            sheet.Plot.Add.Marker(trial.Setting, trial.Value, trial.IsBest ? MarkerShape.FilledDiamond : MarkerShape.FilledCircle, trial.IsBest ? 1.5f * Mark : Mark, trial.IsBest ? Ink.Green : Ink.Blue);
            sheet.Note(trial.IsBest ? Phrases.Say("plots.best", ("number", trial.Number)) : $"{trial.Number}", trial.Setting, trial.Value, Alignment.LowerLeft, Ink.Text, trial.IsBest);
        }

        return sheet.Plot;
    }
}
