using System.Numerics.Tensors;
using System.Runtime.Intrinsics;

namespace Clackbeat.Signal.Beats;

/// <summary>Counts of values in equal bins between the smallest and the largest of them.</summary>
internal sealed class Histogram
{
    private readonly long[] _counts;
    private readonly double _low;
    private readonly double _width;
    private readonly long _total;

    private Histogram(long[] counts, double low, double width, long total) =>
        (_counts, _low, _width, _total) = (counts, low, width, total);

    /// <summary>Counts the values; null when they are all the same.</summary>
    public static Histogram? Of(ReadOnlySpan<double> values, int bins)
    {
        (double low, double high) = (TensorPrimitives.Min(values), TensorPrimitives.Max(values));
        double width = (high - low) / bins;
        if (!(width > 0))
        {
            return null;
        }

        return new Histogram(Count(values, low, width, bins), low, width, values.Length);
    }

    private static long[] Count(ReadOnlySpan<double> values, double low, double width, int bins)
    {
        // Neighbouring samples fall into the same bin, and each would wait for the other's count: so they go to four tables.
        (int[] a, int[] b, int[] c, int[] d) = (new int[bins + 1], new int[bins + 1], new int[bins + 1], new int[bins + 1]);
        (Vector256<double> from, Vector256<double> step) = (Vector256.Create(low), Vector256.Create(width));
        int i = 0;
        for (; i + 4 <= values.Length; i += 4)
        {
            Vector256<long> bin = Vector256.ConvertToInt64Native((Vector256.Create(values.Slice(i, 4)) - from) / step);
            a[(int)bin[0]]++;
            b[(int)bin[1]]++;
            c[(int)bin[2]]++;
            d[(int)bin[3]]++;
        }

        for (; i < values.Length; i++)
        {
            a[(int)((values[i] - low) / width)]++;
        }

        // The largest value lies on the upper end of the last bin, and belongs to it.
        var counts = new long[bins];
        for (int bin = 0; bin <= bins; bin++)
        {
            counts[Math.Min(bin, bins - 1)] += a[bin] + b[bin] + c[bin] + d[bin];
        }

        return counts;
    }

    /// <summary>The bin below whose end the given share of all values lies.</summary>
    public int BinOfQuantile(double share)
    {
        long sum = 0;
        for (int bin = 0; bin < _counts.Length; bin++)
        {
            sum += _counts[bin];
            if (sum >= share * _total)
            {
                return bin;
            }
        }

        return _counts.Length - 1;
    }

    /// <summary>First bin of the upper class that maximises the variance between classes; values under the floor bin count as if in it.</summary>
    public int OtsuSplit(int floorBin)
    {
        double sumAll = 0;
        for (int bin = 0; bin < _counts.Length; bin++)
        {
            sumAll += (double)_counts[bin] * Math.Max(bin, floorBin);
        }

        (double weight, double sum, double best, int split) = (0, 0, -1, floorBin + 1);
        for (int bin = 0; bin < _counts.Length - 1; bin++)
        {
            weight += _counts[bin];
            sum += (double)_counts[bin] * Math.Max(bin, floorBin);
            double rest = _total - weight;
            if (bin < floorBin || rest <= 0)
            {
                continue;
            }

            double difference = (sum / weight) - ((sumAll - sum) / rest);
            double between = weight * rest * difference * difference;
            if (between > best)
            {
                (best, split) = (between, bin + 1);
            }
        }

        return split;
    }

    /// <summary>Median of the values in the bins [from, to).</summary>
    public double Median(int from, int to) => Centre(MedianBin(from, to));

    /// <summary>Median absolute deviation from a centre of the values in the bins [from, to).</summary>
    public double MedianDeviation(int from, int to, double centre)
    {
        // Centres rise with their bins, so deviations grow outwards from where the centre lies: no sorting.
        long total = 0;
        int up = from;
        for (int bin = from; bin < to; bin++)
        {
            total += _counts[bin];
            up += Centre(bin) < centre ? 1 : 0;
        }

        if (total == 0)
        {
            return 0;
        }

        (int down, long sum) = (up - 1, 0);
        while (down >= from || up < to)
        {
            double below = down >= from ? Math.Abs(Centre(down) - centre) : double.PositiveInfinity;
            double above = up < to ? Math.Abs(Centre(up) - centre) : double.PositiveInfinity;
            sum += below < above ? _counts[down--] : _counts[up++];
            if (sum * 2 >= total)
            {
                return Math.Min(below, above);
            }
        }

        return 0;
    }

    private int MedianBin(int from, int to)
    {
        long total = 0;
        for (int bin = from; bin < to; bin++)
        {
            total += _counts[bin];
        }

        long sum = 0;
        for (int bin = from; bin < to; bin++)
        {
            sum += _counts[bin];
            if (sum * 2 >= total)
            {
                return bin;
            }
        }

        return from;
    }

    private double Centre(int bin) => _low + ((bin + 0.5) * _width);
}
