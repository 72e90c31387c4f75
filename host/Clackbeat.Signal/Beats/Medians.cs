using System.Buffers;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// Upper medians without sorting: what stands at n/2 in rising order, found by Hoare's selection (C. A. R. Hoare, Algorithm 65:
/// Find, Comm. ACM 4(7), 1961, doi:10.1145/366622.366647) in time that grows with n, not n log n.
/// </summary>
internal static class Medians
{
    /// <summary>The upper median; the values stay as they are.</summary>
    public static double Of(ReadOnlySpan<double> values)
    {
        double[] copy = ArrayPool<double>.Shared.Rent(values.Length);
        values.CopyTo(copy);
        double median = Partition(copy.AsSpan(0, values.Length));
        ArrayPool<double>.Shared.Return(copy);
        return median;
    }

    /// <summary>The upper median; the values are moved about.</summary>
    public static double Partition(Span<double> values)
    {
        int wanted = values.Length / 2;
        (int low, int high) = (0, values.Length - 1);
        while (low < high)
        {
            double pivot = Middle(values[low], values[low + ((high - low) / 2)], values[high]);
            (int i, int j) = (low, high);
            while (i <= j)
            {
                while (values[i] < pivot)
                {
                    i++;
                }

                while (pivot < values[j])
                {
                    j--;
                }

                if (i <= j)
                {
                    (values[i], values[j]) = (values[j], values[i]);
                    i++;
                    j--;
                }
            }

            high = wanted <= j ? j : high;
            low = wanted >= i ? i : low;
            if (wanted > j && wanted < i)
            {
                break;
            }
        }

        return values[wanted];
    }

    /// <summary>Tells whether the upper median lies above a level: so it does when at most half of the values don't.</summary>
    public static bool IsAbove(ReadOnlySpan<double> values, double level)
    {
        int under = 0;
        foreach (double value in values)
        {
            under += value <= level ? 1 : 0;
        }

        return under <= values.Length / 2;
    }

    private static double Middle(double a, double b, double c) =>
        Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
