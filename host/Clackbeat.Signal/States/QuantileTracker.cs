namespace Clackbeat.Signal.States;

/// <summary>
/// Quantiles of a long stream of positive numbers in bounded memory: counts by logarithm, fifty bins an octave, so the
/// answer is right within a hundredth of itself.
/// </summary>
internal sealed class QuantileTracker
{
    private const int BinsPerOctave = 50;
    private const int Octaves = 64;
    private const double Least = 1e-9;

    private readonly long[] _counts = new long[BinsPerOctave * Octaves];
    private long _count;

    /// <summary>The number below which a share of all lies; 0 for nothing or for zeros.</summary>
    public double Quantile(double share)
    {
        long seen = 0;
        for (int bin = 0; bin < _counts.Length; bin++)
        {
            seen += _counts[bin];
            if (seen > share * _count)
            {
                return bin == 0 ? 0 : Least * Math.Pow(2, (bin + 0.5) / BinsPerOctave);
            }
        }

        return 0;
    }

    /// <summary>Takes the next number.</summary>
    public void Add(double value)
    {
        _count++;
        int bin = value > Least ? (int)(Math.Log2(value / Least) * BinsPerOctave) : 0;
        _counts[Math.Min(bin, _counts.Length - 1)]++;
    }
}
