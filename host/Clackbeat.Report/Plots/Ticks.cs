using Clackbeat.Report.Wording;
using ScottPlot.TickGenerators;

namespace Clackbeat.Report.Plots;

/// <summary>Round tick values, also for a second scale that runs along the first in another unit.</summary>
internal static class Ticks
{
    /// <summary>Ticks for a range in its own unit or, with a factor, labelled in another one.</summary>
    public static NumericManual For(double low, double high, int about, double factor = 1)
    {
        double step = RoundStep((high - low) * factor / about);
        int decimals = Math.Max(0, (int)-Math.Floor(Math.Log10(step) + 1e-9));
        var ticks = new NumericManual();
        for (double value = Math.Ceiling(low * factor / step - 1e-9) * step; value <= (high * factor) + (step * 1e-9); value += step)
        {
            ticks.AddMajor(value / factor, Digits.Fixed(value, decimals));
        }

        return ticks;
    }

    private static double RoundStep(double rough)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        return (rough / power) switch { <= 1 => 1, <= 2 => 2, <= 5 => 5, _ => 10 } * power;
    }
}
