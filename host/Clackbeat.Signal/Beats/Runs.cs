using System.Numerics;
using System.Runtime.InteropServices;

namespace Clackbeat.Signal.Beats;

/// <summary>How long samples stay on one side of a level or near one: as many looked at in one step as the processor holds side by side.</summary>
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

    /// <summary>How many values come after the last that lies further from a centre than a band.</summary>
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
}
