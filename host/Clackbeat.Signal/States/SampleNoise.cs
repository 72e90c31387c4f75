using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.States;

/// <summary>What a sensor's and converter's noise amounts to, from the samples themselves.</summary>
internal static class SampleNoise
{
    // For white noise of deviation σ second differences scatter by σ√6, and half of them lie within 0.6745 deviations.
    private const double MedianOverSigma = 0.6744898;

    /// <summary>
    /// Standard deviation of white noise [Pa] by the median of the second differences, which a slow signal hardly enters and
    /// short bursts of a fast one don't move (F. R. Hampel, J. Am. Stat. Assoc. 69 (1974) 383, on the median deviation).
    /// </summary>
    /// <param name="pressuresPa">Consecutive samples [Pa].</param>
    public static double Of(ReadOnlySpan<double> pressuresPa)
    {
        if (pressuresPa.Length < 3)
        {
            return 0;
        }

        double[] seconds = new double[pressuresPa.Length - 2];
        for (int i = 0; i < seconds.Length; i++)
        {
            seconds[i] = Math.Abs(pressuresPa[i] - (2 * pressuresPa[i + 1]) + pressuresPa[i + 2]);
        }

        return ArrayStatistics.MedianInplace(seconds) / (MedianOverSigma * Math.Sqrt(6));
    }
}
