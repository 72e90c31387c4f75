using System.Numerics.Tensors;
using System.Runtime.Intrinsics;

namespace Clackbeat.Signal.Beats;

/// <summary>How long samples stay on one side of a level, and how evenly they are spaced: many looked at in one step.</summary>
internal static class Runs
{
    /// <summary>How many values come before the first at or above the level.</summary>
    public static int Below(ReadOnlySpan<double> values, double level) => Until(values, level, above: true);

    /// <summary>How many values come before the first below the level.</summary>
    public static int Above(ReadOnlySpan<double> values, double level) => Until(values, level, above: false);

    /// <summary>The smallest and the largest step between neighbours [s]; of two samples at least.</summary>
    public static (double LeastS, double MostS) Steps(ReadOnlySpan<double> timeS)
    {
        Span<double> steps = stackalloc double[512];
        (double least, double most) = (double.PositiveInfinity, double.NegativeInfinity);
        for (int from = 0; from < timeS.Length - 1; from += steps.Length)
        {
            int count = Math.Min(steps.Length, timeS.Length - 1 - from);
            Span<double> some = steps[..count];
            TensorPrimitives.Subtract(timeS.Slice(from + 1, count), timeS.Slice(from, count), some);
            least = Math.Min(least, TensorPrimitives.Min(some));
            most = Math.Max(most, TensorPrimitives.Max(some));
        }

        return (least, most);
    }

    private static int Until(ReadOnlySpan<double> values, double level, bool above)
    {
        int i = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            var levels = Vector256.Create(level);
            uint stays = above ? 0b1111u : 0u;
            while (i + 4 <= values.Length
                && Vector256.LessThan(Vector256.Create(values.Slice(i, 4)), levels).ExtractMostSignificantBits() == stays)
            {
                i += 4;
            }
        }

        while (i < values.Length && values[i] < level == above)
        {
            i++;
        }

        return i;
    }
}
