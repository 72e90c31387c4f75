using System.Numerics;
using System.Runtime.InteropServices;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// Smallest and largest at once, in one pass over memory and without asking of each value whether it is a number, which every sample is:
/// the library's two passes, which do ask, were a fourteenth of all detection.
/// </summary>
internal static class Extremes
{
    /// <summary>The smallest and the largest value; infinities the wrong way round when there are none.</summary>
    public static (double Least, double Most) Of(ReadOnlySpan<double> values)
    {
        ReadOnlySpan<Vector<double>> many = MemoryMarshal.Cast<double, Vector<double>>(values);
        (var leasts, var mosts) = (new Vector<double>(double.PositiveInfinity), new Vector<double>(double.NegativeInfinity));
        foreach (Vector<double> some in many)
        {
            (leasts, mosts) = (Vector.MinNative(leasts, some), Vector.MaxNative(mosts, some));
        }

        (double least, double most) = (Least(leasts), Most(mosts));
        foreach (double value in values[(many.Length * Vector<double>.Count)..])
        {
            (least, most) = (Math.Min(least, value), Math.Max(most, value));
        }

        return (least, most);
    }

    /// <summary>The smallest and the largest step from one value to the next; of two values at least.</summary>
    public static (double Least, double Most) OfSteps(ReadOnlySpan<double> values)
    {
        ReadOnlySpan<Vector<double>> earlier = MemoryMarshal.Cast<double, Vector<double>>(values[..^1]);
        ReadOnlySpan<Vector<double>> later = MemoryMarshal.Cast<double, Vector<double>>(values[1..]);
        (var leasts, var mosts) = (new Vector<double>(double.PositiveInfinity), new Vector<double>(double.NegativeInfinity));
        for (int i = 0; i < later.Length; i++)
        {
            Vector<double> steps = later[i] - earlier[i];
            (leasts, mosts) = (Vector.MinNative(leasts, steps), Vector.MaxNative(mosts, steps));
        }

        (double least, double most) = (Least(leasts), Most(mosts));
        for (int i = (later.Length * Vector<double>.Count) + 1; i < values.Length; i++)
        {
            double step = values[i] - values[i - 1];
            (least, most) = (Math.Min(least, step), Math.Max(most, step));
        }

        return (least, most);
    }

    /// <summary>The smallest of the numbers side by side in a vector.</summary>
    public static double Least(Vector<double> lanes) => -Most(-lanes);

    /// <summary>The largest of the numbers side by side in a vector.</summary>
    public static double Most(Vector<double> lanes)
    {
        double most = lanes[0];
        for (int lane = 1; lane < Vector<double>.Count; lane++)
        {
            most = Math.Max(most, lanes[lane]);
        }

        return most;
    }
}
