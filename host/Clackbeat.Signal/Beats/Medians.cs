using System.Numerics;
using System.Runtime.InteropServices;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// Upper medians (what stands at n/2 in rising order) without sorting, copying or moving the values. A pivot between the smallest and the
/// largest that may still be it is counted against, many values in one step, until one value is left. That takes some seven
/// passes; Hoare's selection, whose branches no processor foretells, was a quarter of all detection.
/// </summary>
internal static class Medians
{
    /// <summary>The upper median; of one value at least.</summary>
    public static double Of(ReadOnlySpan<double> values) => Ranked(values, values.Length / 2);

    /// <summary>The upper median of the values that reach a level; of all when none does.</summary>
    public static double OfReaching(ReadOnlySpan<double> values, double level)
    {
        int under = Split(values, level).Under;
        int reaching = values.Length - under;
        return Ranked(values, reaching > 0 ? under + (reaching / 2) : values.Length / 2);
    }

    /// <summary>Tells whether the upper median lies above a level: so it does when at most half of the values don't.</summary>
    public static bool IsAbove(ReadOnlySpan<double> values, double level) =>
        Split(values, double.BitIncrement(level)).Under <= values.Length / 2;

    private static double Ranked(ReadOnlySpan<double> values, int rank)
    {
        (double least, double most) = Extremes.Of(values);
        (int underLeast, int uptoMost) = (0, values.Length);
        for (bool halving = false; least < most; halving = !halving)
        {
            // Where the rank would be if the values lay evenly, which they nearly do around a median; every other time the middle, so
            // that one value far off can't make the steps small.
            double share = halving ? 0.5 : (rank + 0.5 - underLeast) / (uptoMost - underLeast);
            double pivot = Math.Clamp(least + (share * (most - least)), double.BitIncrement(least), most);
            (int under, double below, double reaching) = Split(values, pivot);
            if (under <= rank)
            {
                (least, underLeast) = (reaching, under);
            }
            else
            {
                (most, uptoMost) = (below, under);
            }
        }

        return least;
    }

    /// <summary>How many values lie under a pivot, the largest of those, and the smallest of the others.</summary>
    private static (int Under, double Below, double Reaching) Split(ReadOnlySpan<double> values, double pivot)
    {
        var pivots = new Vector<double>(pivot);
        (var lowest, var highest) = (new Vector<double>(double.NegativeInfinity), new Vector<double>(double.PositiveInfinity));
        (Vector<double> belows, Vector<double> reachings) = (lowest, highest);
        Vector<long> unders = Vector<long>.Zero;
        ReadOnlySpan<Vector<double>> many = MemoryMarshal.Cast<double, Vector<double>>(values);
        foreach (Vector<double> some in many)
        {
            // True is −1 in each place.
            Vector<long> isUnder = Vector.LessThan(some, pivots);
            unders -= isUnder;
            belows = Vector.MaxNative(belows, Vector.ConditionalSelect(isUnder, some, lowest));
            reachings = Vector.MinNative(reachings, Vector.ConditionalSelect(isUnder, highest, some));
        }

        (int under, double below, double reaching) = ((int)Vector.Sum(unders), Extremes.Most(belows), Extremes.Least(reachings));
        foreach (double value in values[(many.Length * Vector<double>.Count)..])
        {
            bool isUnder = value < pivot;
            under += isUnder ? 1 : 0;
            (below, reaching) = isUnder ? (Math.Max(below, value), reaching) : (below, Math.Min(reaching, value));
        }

        return (under, below, reaching);
    }
}
