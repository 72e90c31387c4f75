using Clackbeat.Report.Wording;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using ScottPlot;
using ScottPlot.Plottables;

namespace Clackbeat.Report.Plots;

/// <summary>Where the energy of a mean beat goes: steps that begin where the last one ended and end at what was drawn.</summary>
internal static class EnergyPlot
{
    private const float BarWidth = 22;

    public static Plot Draw(EnergySplit energy, Frame frame)
    {
        (string Name, double Joule, Color Color)[] steps = Steps(energy);
        double right = Math.Max(energy.DrawnJ, 1e-6);
        double room = right * (frame.IsNarrow ? 0.85 : 0.3);
        double left = Math.Min(0, Lowest(steps));
        var sheet = new Sheet(frame);
        sheet.Plot.Axes.SetLimits(left, right + room, -steps.Length - 0.6, 0.6);
        sheet.Plot.Axes.Bottom.TickGenerator = Ticks.For(left, right + room, frame.IsNarrow ? 4 : 8);
        sheet.Plot.Axes.Bottom.Label.Text = Phrases.Say("plots.energy-mean-beat-j");
        sheet.Plot.Axes.Left.TickGenerator = new ScottPlot.TickGenerators.NumericManual(
            [.. Enumerable.Range(0, steps.Length + 1).Select(i => (double)-i)], [.. steps.Select(s => s.Name), Phrases.Say("plots.drawn-supply")]);
        sheet.Plot.Axes.Left.TickLabelStyle.ForeColor = Ink.Text;
        sheet.Plot.Grid.YAxisStyle.IsVisible = false;
        double from = 0;
        for (int i = 0; i < steps.Length; i++)
        {
            double to = from + steps[i].Joule;
            Bar(sheet, from, to, -i, steps[i].Color, Label(steps[i].Joule, energy.DrawnJ));
            if (i < steps.Length - 1)
            {
                sheet.Line([new(to, -i), new(to, -i - 1)], Ink.Muted, 1);
            }

            from = to;
        }

        Bar(sheet, 0, energy.DrawnJ, -steps.Length, Ink.Text, Label(energy.DrawnJ, energy.DrawnJ));
        return sheet.Plot;
    }

    /// <summary>The steps in the order they are drawn.</summary>
    internal static (string Name, double Joule, Color Color)[] Steps(EnergySplit energy) =>
    [
        (Phrases.Say("plots.lifted-outlet"), energy.DeliveredJ, Ink.Green),
        (Phrases.Say("plots.delivery-valve-main"), energy.DeliveryLossJ, Ink.Sky),
        (Phrases.Say("plots.out-waste-valve"), energy.WasteValveJ, Ink.Orange),
        (Phrases.Say("plots.friction-drive-pipe"), energy.FrictionJ, Ink.Vermilion),
        (Phrases.Say("plots.waves-recoil-rest"), energy.RestJ, Ink.Muted),
    ];

    private static double Lowest((string Name, double Joule, Color Color)[] steps)
    {
        (double sum, double lowest) = (0, 0);
        foreach ((string Name, double Joule, Color Color) step in steps)
        {
            sum += step.Joule;
            lowest = Math.Min(lowest, sum);
        }

        return lowest;
    }

    private static void Bar(Sheet sheet, double from, double to, double y, Color color, string label)
    {
        sheet.Line([new(from, y), new(to, y)], color, BarWidth);
        Text note = sheet.Note(label, Math.Max(from, to), y, Alignment.MiddleLeft, Ink.Text);
        note.OffsetX = 9;
    }

    private static string Label(double joule, double drawn) =>
        $"{Digits.Fixed(joule, Rounding.PlacesOfBare(drawn, 3))} J, {Digits.Fixed(100 * joule / drawn, 0)} %";
}
