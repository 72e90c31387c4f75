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
        int largest = 0;
        for (int i = 1; i < pressuresPa.Length; i++)
        {
            largest = pressuresPa[i] > pressuresPa[largest] ? i : largest;
        }

        double largestPa = pressuresPa[largest];
        double highestPa = largestPa;
        for (int i = 1; i < pressuresPa.Length - 1; i++)
        {
            double here = pressuresPa[i];
            double leftPa = here - pressuresPa[i - 1];
            double rightPa = here - pressuresPa[i + 1];
            if (leftPa < 0 || rightPa < 0)
            {
                continue;
            }

            highestPa = Math.Max(highestPa, here + Math.Max(leftPa, rightPa));
        }

        return new Peak(largestPa, 0.5 * (largestPa + highestPa), 0.5 * (highestPa - largestPa));
    }
}
