using Clackbeat.Report.Wording;
using ScottPlot.TickGenerators;

namespace Clackbeat.Report.Plots;

/// <summary>Round tick values, also for a second scale that runs along the first in another unit.</summary>
internal static class Ticks
{
    /// <summary>Ticks for a range in its own unit or, with a factor, labelled in another one.</summary>
    public static NumericManual For(double low, double high, int about, double factor = 1)
    {
        var ticks = new NumericManual();
        foreach ((double position, string label) in Round(low, high, about, factor))
        {
            ticks.AddMajor(position, Sheet.Drawable(label));
        }

        return ticks;
    }

    /// <summary>Where the ticks stand in the range's own unit, and the round values they carry in the other.</summary>
    public static IEnumerable<(double Position, string Label)> Round(double low, double high, int about, double factor)
    {
        double step = RoundStep((high - low) * factor / about);
        int decimals = Math.Max(0, (int)-Math.Floor(Math.Log10(step) + 1e-9));
        long first = (long)Math.Ceiling((low * factor / step) - 1e-9);
        long last = (long)Math.Floor((high * factor / step) + 1e-9);
        for (long i = first; i <= last; i++)
        {
            yield return (i * step / factor, Digits.Fixed(i * step, decimals));
        }
    }

    private static double RoundStep(double rough)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        return (rough / power) switch { <= 1 => 1, <= 2 => 2, <= 5 => 5, _ => 10 } * power;
    }
}
