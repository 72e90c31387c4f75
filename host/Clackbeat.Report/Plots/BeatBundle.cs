using Clackbeat.Signal.Figures;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Report.Plots;

/// <summary>Many beats on one time axis: at each instant after the closure the median and the middle 90 % of them.</summary>
internal sealed class BeatBundle
{
    private const int GridPoints = 1200;
    private const double Bar = 1e-5;

    private BeatBundle(double[] timeS, double[] median, double[] low, double[] high)
    {
        (TimeS, Median, Low, High) = (timeS, median, low, high);
    }

    /// <summary>Time after the closure [s].</summary>
    public double[] TimeS { get; }

    /// <summary>Median beat [bar].</summary>
    public double[] Median { get; }

    /// <summary>5th percentile [bar].</summary>
    public double[] Low { get; }

    /// <summary>95th percentile [bar].</summary>
    public double[] High { get; }

    /// <summary>Null for no beats.</summary>
    public static BeatBundle? Of(IReadOnlyList<TraceCurve> overlay)
    {
        List<TraceCurve> beats = [.. overlay.Where(c => c.TimeS.Count > 1)];
        if (beats.Count == 0)
        {
            return null;
        }

        double start = beats.Max(c => c.TimeS[0]);
        // Beats differ in length; past the median length half of them have ended, and a median of the rest would mislead.
        double end = beats.Select(c => c.TimeS[^1]).Median();
        double[] grid = [.. Enumerable.Range(0, GridPoints).Select(i => start + ((end - start) * i / (GridPoints - 1)))];
        double[][] levels = [.. beats.Select(c => Resample(c, grid))];
        (double Low, double Median, double High)?[] rows = grid.Select((_, i) => Band([.. levels.Select(l => l[i]).Where(double.IsFinite)])).ToArray();
        int[] known = [.. Enumerable.Range(0, grid.Length).Where(i => rows[i] is not null)];
        return known.Length < 2 ? null : new BeatBundle(
            [.. known.Select(i => grid[i])],
            [.. known.Select(i => rows[i]!.Value.Median)],
            [.. known.Select(i => rows[i]!.Value.Low)],
            [.. known.Select(i => rows[i]!.Value.High)]);
    }

    private static (double Low, double Median, double High)? Band(double[] values)
    {
        if (values.Length == 0)
        {
            return null;
        }

        Array.Sort(values);
        return (Quantile(values, 0.05), Quantile(values, 0.5), Quantile(values, 0.95));
    }

    // R. J. Hyndman and Y. Fan, "Sample quantiles in statistical packages" (1996), doi:10.1080/00031305.1996.10473566, type 7.
    private static double Quantile(double[] sorted, double share) =>
        SortedArrayStatistics.QuantileCustom(sorted, share, QuantileDefinition.R7);

    private static double[] Resample(TraceCurve curve, double[] grid)
    {
        double widest = 4 * Curves.UsualStep(curve.TimeS);
        double[] values = new double[grid.Length];
        int next = 0;
        for (int i = 0; i < grid.Length; i++)
        {
            while (next < curve.TimeS.Count && curve.TimeS[next] < grid[i])
            {
                next++;
            }

            values[i] = Between(curve, next, grid[i], widest);
        }

        return values;
    }

    private static double Between(TraceCurve curve, int next, double at, double widest)
    {
        if (next >= curve.TimeS.Count)
        {
            return double.NaN;
        }

        if (next == 0 || curve.TimeS[next] == at)
        {
            return curve.TimeS[next] == at ? curve.PressurePa[next] * Bar : double.NaN;
        }

        double step = curve.TimeS[next] - curve.TimeS[next - 1];
        double share = (at - curve.TimeS[next - 1]) / step;
        // Nothing is known inside a gap, so nothing is drawn there.
        return step > widest
            ? double.NaN
            : (curve.PressurePa[next - 1] + (share * (curve.PressurePa[next] - curve.PressurePa[next - 1]))) * Bar;
    }
}
