namespace Clackbeat.Signal.Analysis;

/// <summary>
/// The median of a long stream of positive numbers in bounded memory: counts by logarithm, fifty bins an octave, so the
/// answer is right within a hundredth of itself.
/// </summary>
internal sealed class MedianTracker
{
    private const int BinsPerOctave = 50;
    private const int Octaves = 64;
    private const double Least = 1e-9;

    private readonly long[] _counts = new long[BinsPerOctave * Octaves];
    private long _count;

    /// <summary>The median so far; 0 for nothing or for zeros.</summary>
    public double Median
    {
        get
        {
            long seen = 0;
            for (int bin = 0; bin < _counts.Length; bin++)
            {
                seen += _counts[bin];
                if (2 * seen > _count)
                {
                    return bin == 0 ? 0 : Least * Math.Pow(2, (bin + 0.5) / BinsPerOctave);
                }
            }

            return 0;
        }
    }

    /// <summary>Takes the next number.</summary>
    public void Add(double value)
    {
        _count++;
        int bin = value > Least ? (int)(Math.Log2(value / Least) * BinsPerOctave) : 0;
        _counts[Math.Min(bin, _counts.Length - 1)]++;
    }
}
