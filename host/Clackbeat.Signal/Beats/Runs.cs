using System.Numerics;
using System.Runtime.InteropServices;

namespace Clackbeat.Signal.Beats;

/// <summary>How long samples stay on one side of a level or within a band, and how evenly they are spaced: many looked at in one step.</summary>
internal static class Runs
{
    /// <summary>How many values come before the first at or above the level.</summary>
    public static int Below(ReadOnlySpan<double> values, double level)
    {
        var levels = new Vector<double>(level);
        ReadOnlySpan<Vector<double>> many = MemoryMarshal.Cast<double, Vector<double>>(values);
        int i = 0;
        while (i < many.Length && Vector.LessThanAll(many[i], levels))
        {
            i++;
        }

        i *= Vector<double>.Count;
        while (i < values.Length && values[i] < level)
        {
            i++;
        }

        return i;
    }

    /// <summary>How many values come before the first below the level.</summary>
    public static int Above(ReadOnlySpan<double> values, double level)
    {
        var levels = new Vector<double>(level);
        ReadOnlySpan<Vector<double>> many = MemoryMarshal.Cast<double, Vector<double>>(values);
        int i = 0;
        while (i < many.Length && Vector.GreaterThanOrEqualAll(many[i], levels))
        {
            i++;
        }

        i *= Vector<double>.Count;
        while (i < values.Length && values[i] >= level)
        {
            i++;
        }

        return i;
    }

    /// <summary>How many values come after the last that is further from a centre than a band.</summary>
    public static int NearAtEnd(ReadOnlySpan<double> values, double centre, double band)
    {
        (var centres, var bands) = (new Vector<double>(centre), new Vector<double>(band));
        int left = values.Length;
        while (left >= Vector<double>.Count
            && Vector.LessThanOrEqualAll(Vector.Abs(new Vector<double>(values[(left - Vector<double>.Count)..]) - centres), bands))
        {
            left -= Vector<double>.Count;
        }

        while (left > 0 && Math.Abs(values[left - 1] - centre) <= band)
        {
            left--;
        }

        return values.Length - left;
    }

    /// <summary>The smallest and the largest step between neighbours [s]; of two samples at least.</summary>
    public static (double LeastS, double MostS) Steps(ReadOnlySpan<double> timeS)
    {
        ReadOnlySpan<Vector<double>> earlier = MemoryMarshal.Cast<double, Vector<double>>(timeS[..^1]);
        ReadOnlySpan<Vector<double>> later = MemoryMarshal.Cast<double, Vector<double>>(timeS[1..]);
        (var leasts, var mosts) = (new Vector<double>(double.PositiveInfinity), new Vector<double>(double.NegativeInfinity));
        for (int i = 0; i < earlier.Length; i++)
        {
            Vector<double> steps = later[i] - earlier[i];
            (leasts, mosts) = (Vector.MinNative(leasts, steps), Vector.MaxNative(mosts, steps));
        }

        (double least, double most) = (double.PositiveInfinity, double.NegativeInfinity);
        for (int lane = 0; lane < Vector<double>.Count; lane++)
        {
            (least, most) = (Math.Min(least, leasts[lane]), Math.Max(most, mosts[lane]));
        }

        for (int i = (earlier.Length * Vector<double>.Count) + 1; i < timeS.Length; i++)
        {
            double stepS = timeS[i] - timeS[i - 1];
            (least, most) = (Math.Min(least, stepS), Math.Max(most, stepS));
        }

        return (least, most);
    }
}
