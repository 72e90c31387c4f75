using System.Numerics.Tensors;

namespace Clackbeat.Signal.Beats;

/// <summary>Counts of values in equal bins between the smallest and the largest of them; its table is used again and again.</summary>
internal sealed class Histogram(int bins)
{
    private readonly int[] _counts = new int[bins];
    private double _low;
    private double _width;
    private int _total;

    /// <summary>Forgets what was counted before and counts these values; false when they are all the same.</summary>
    public bool Count(ReadOnlySpan<double> values)
    {
        if (values.Length == 0)
        {
            return false;
        }

        double low = TensorPrimitives.Min(values);
        double width = (TensorPrimitives.Max(values) - low) / _counts.Length;
        if (!(width > 0))
        {
            return false;
        }

        (_low, _width, _total) = (low, width, values.Length);
        Array.Clear(_counts);
        foreach (double value in values)
        {
            // The largest value lies on the upper end of the last bin, and belongs to it.
            _counts[Math.Min((int)((value - low) / width), _counts.Length - 1)]++;
        }

        return true;
    }

    /// <summary>The bin below whose end the given share of all values lies.</summary>
    public int BinOfQuantile(double share)
    {
        int sum = 0;
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
            if (bin < floorBin || rest <= 0 || _counts[bin] == 0)
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
        int total = 0;
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

        (int down, int sum) = (up - 1, 0);
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
        int total = 0;
        for (int bin = from; bin < to; bin++)
        {
            total += _counts[bin];
        }

        int sum = 0;
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
