using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.HandTests;

/// <summary>A record as means over tenths of a second: what is left of ripple and noise is small beside a level that moves.</summary>
internal sealed class LevelTrace
{
    /// <summary>Length of a block [s].</summary>
    public const double BlockS = 0.1;

    private readonly double[] _levels;

    private LevelTrace(double[] levels) => _levels = levels;

    /// <summary>Number of blocks.</summary>
    public int Count => _levels.Length;

    /// <summary>Level of a block [Pa].</summary>
    public double this[int block] => _levels[block];

    /// <summary>Number of blocks in a time.</summary>
    public static int Blocks(double timeS) => (int)Math.Round(timeS / BlockS);

    /// <summary>Makes the means; a block without samples, in a gap, keeps the level of the one before.</summary>
    public static LevelTrace Of(ReadOnlySpan<double> timesS, ReadOnlySpan<double> pressuresPa)
    {
        if (timesS.Length == 0)
        {
            return new LevelTrace([]);
        }

        int count = (int)((timesS[^1] - timesS[0]) / BlockS) + 1;
        double[] sums = new double[count];
        int[] samples = new int[count];
        for (int i = 0; i < timesS.Length; i++)
        {
            int block = Math.Clamp((int)((timesS[i] - timesS[0]) / BlockS), 0, count - 1);
            sums[block] += pressuresPa[i];
            samples[block]++;
        }

        for (int b = 0; b < count; b++)
        {
            sums[b] = samples[b] > 0 ? sums[b] / samples[b] : sums[Math.Max(0, b - 1)];
        }

        return new LevelTrace(sums);
    }

    /// <summary>Mean level of some blocks [Pa].</summary>
    public double Mean(int from, int until) => _levels.AsSpan(from, until - from).ToArray().Average();

    /// <summary>Median level of some blocks [Pa].</summary>
    public double Median(int from, int until) => _levels[from..until].Median();

    /// <summary>Standard deviation of some blocks [Pa].</summary>
    public double Deviation(int from, int until)
    {
        double mean = Mean(from, until);
        return Math.Sqrt(_levels.AsSpan(from, until - from).ToArray().Average(p => (p - mean) * (p - mean)));
    }

    /// <summary>Slope of the line through some blocks [Pa/s].</summary>
    public double Slope(int from, int until)
    {
        double mean = Mean(from, until), middle = 0.5 * (from + until - 1);
        double up = 0, along = 0;
        for (int b = from; b < until; b++)
        {
            up += (b - middle) * (_levels[b] - mean);
            along += (b - middle) * (b - middle);
        }

        return up / along / BlockS;
    }
}
