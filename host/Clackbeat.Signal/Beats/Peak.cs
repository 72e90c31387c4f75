using System.Numerics;
using System.Numerics.Tensors;
using System.Runtime.InteropServices;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// The peak of one beat as sampled and as it may have been between the samples. The true peak is at least the largest
/// sample; at most the pressure went on past a sample for one whole step as steeply as the record shows at that place.
/// The estimate is the middle of that interval and its half-width the uncertainty, the rectangular distribution of
/// JCGM 100:2008 §4.3.7 taken whole.
/// </summary>
/// <param name="LargestPa">Largest sample [Pa].</param>
/// <param name="EstimatePa">Estimated true peak [Pa].</param>
/// <param name="HalfWidthPa">Half-width of the interval that holds it [Pa].</param>
public readonly record struct Peak(double LargestPa, double EstimatePa, double HalfWidthPa)
{
    /// <summary>Finds the peak among consecutive samples.</summary>
    /// <param name="pressuresPa">Gauge pressures [Pa], at least one, with a sample before and after the beat's high part.</param>
    public static Peak Of(ReadOnlySpan<double> pressuresPa)
    {
        double largestPa = TensorPrimitives.Max(pressuresPa);
        double highestPa = pressuresPa.Length < 3 ? largestPa : Math.Max(largestPa, HighestBeyond(pressuresPa));
        return new Peak(largestPa, 0.5 * (largestPa + highestPa), 0.5 * (highestPa - largestPa));
    }

    /// <summary>As far as the pressure may have gone past any sample that is no lower than its neighbours [Pa].</summary>
    private static double HighestBeyond(ReadOnlySpan<double> pressuresPa)
    {
        // Many samples in one step, each beside its neighbours; which of them are tops decides nothing about the time this takes.
        ReadOnlySpan<double> inner = pressuresPa[1..^1];
        ReadOnlySpan<Vector<double>> before = MemoryMarshal.Cast<double, Vector<double>>(pressuresPa[..^2]);
        ReadOnlySpan<Vector<double>> at = MemoryMarshal.Cast<double, Vector<double>>(inner);
        ReadOnlySpan<Vector<double>> after = MemoryMarshal.Cast<double, Vector<double>>(pressuresPa[2..]);
        var none = new Vector<double>(double.NegativeInfinity);
        Vector<double> highests = none;
        for (int i = 0; i < at.Length; i++)
        {
            (Vector<double> left, Vector<double> right) = (at[i] - before[i], at[i] - after[i]);
            Vector<double> beyond = at[i] + Vector.MaxNative(left, right);
            Vector<long> isTop = Vector.GreaterThanOrEqual(Vector.MinNative(left, right), Vector<double>.Zero);
            highests = Vector.MaxNative(highests, Vector.ConditionalSelect(isTop, beyond, none));
        }

        double highest = Extremes.Most(highests);
        for (int i = at.Length * Vector<double>.Count; i < inner.Length; i++)
        {
            (double left, double right) = (inner[i] - pressuresPa[i], inner[i] - pressuresPa[i + 2]);
            highest = Math.Min(left, right) >= 0 ? Math.Max(highest, inner[i] + Math.Max(left, right)) : highest;
        }

        return highest;
    }
}
