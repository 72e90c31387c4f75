using System.Numerics.Tensors;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// The peak of one beat as sampled and as it may have been between the samples. The estimated peak is at least the largest
/// sample; at most the pressure went on past a sample for one whole step as steeply as the record shows at that place.
/// The estimate is the middle of that interval and its half-width the uncertainty, the rectangular distribution of
/// JCGM 100:2008 §4.3.7 taken whole.
/// </summary>
/// <param name="LargestPa">Largest sample [Pa].</param>
/// <param name="EstimatePa">Estimated peak [Pa].</param>
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
        double highest = double.NegativeInfinity;
        for (int i = 1; i < pressuresPa.Length - 1; i++)
        {
            (double left, double right) = (pressuresPa[i] - pressuresPa[i - 1], pressuresPa[i] - pressuresPa[i + 1]);
            if (left >= 0 && right >= 0)
            {
                highest = Math.Max(highest, pressuresPa[i] + Math.Max(left, right));
            }
        }

        return highest;
    }
}
