using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Beats;

/// <summary>Upper medians (what stands at n/2 in rising order) of samples that must stay in their order.</summary>
internal static class Medians
{
    /// <summary>The upper median; of one value at least.</summary>
    public static double Of(ReadOnlySpan<double> values) => Upper(values.ToArray());

    /// <summary>The upper median of the values that reach a level; of all when none does.</summary>
    public static double OfReaching(ReadOnlySpan<double> values, double level)
    {
        double[] all = values.ToArray();
        double[] reaching = Array.FindAll(all, v => v >= level);
        return Upper(reaching.Length > 0 ? reaching : all);
    }

    /// <summary>Tells whether the lower quartile (what stands at n/4 in rising order) lies above a level: at most a quarter of the values don't.</summary>
    public static bool LowerQuartileIsAbove(ReadOnlySpan<double> values, double level)
    {
        int under = 0;
        foreach (double value in values)
        {
            under += value <= level ? 1 : 0;
        }

        return under <= values.Length / 4;
    }

    // The library counts ranks from 1, and moves what it is given.
    private static double Upper(double[] values) => ArrayStatistics.OrderStatisticInplace(values, (values.Length / 2) + 1);
}
