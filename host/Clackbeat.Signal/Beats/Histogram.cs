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
        (double low, double high) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (double value in values)
        {
            low = Math.Min(low, value);
            high = Math.Max(high, value);
        }

        double width = (high - low) / bins;
        if (!(width > 0))
        {
            return null;
        }

        var counts = new long[bins];
        foreach (double value in values)
        {
            counts[Math.Min((int)((value - low) / width), bins - 1)]++;
        }

        return new Histogram(counts, low, width, values.Length);
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
        var deviations = new List<(double Deviation, long Count)>(to - from);
        long total = 0;
        for (int bin = from; bin < to; bin++)
        {
            if (_counts[bin] > 0)
            {
                deviations.Add((Math.Abs(Centre(bin) - centre), _counts[bin]));
                total += _counts[bin];
            }
        }

        deviations.Sort();
        long sum = 0;
        foreach ((double deviation, long count) in deviations)
        {
            sum += count;
            if (sum * 2 >= total)
            {
                return deviation;
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
