namespace Clackbeat.Signal.Figures;

/// <summary>
/// The mean of a series and how far it may be off. Successive beats are alike: a slow beat follows a slow beat, and n of them tell less
/// than n independent ones would. The effective number is n / (1 + 2 Σ (1 − k/n) r_k), with the estimated autocorrelation r_k summed up to
/// its first value that is not positive (N. F. Zhang, Metrologia 43 (2006) S276, doi:10.1088/0026-1394/43/4/S15; A. Zięba and P. Ramza,
/// Metrol. Meas. Syst. 18 (2011) 529, doi:10.2478/v10178-011-0052-x).
/// </summary>
/// <param name="Mean">The mean.</param>
/// <param name="Standard">Standard uncertainty of the mean; null for a single value, which tells no scatter.</param>
/// <param name="Freedom">Its degrees of freedom: those of the scatter. What correlation takes away is in the uncertainty already.</param>
internal readonly record struct MeanOfSeries(double Mean, double? Standard, double Freedom)
{
    // Fewer than two independent values tell no scatter.
    private const double LeastIndependent = 2;

    /// <summary>Works it out.</summary>
    /// <param name="values">At least one value, in the order of time.</param>
    public static MeanOfSeries Of(IReadOnlyList<double> values)
    {
        int n = values.Count;
        double mean = values.Average();
        double squares = values.Sum(v => (v - mean) * (v - mean));
        if (n < 2)
        {
            return new MeanOfSeries(mean, null, 0);
        }

        double effective = Math.Clamp(n / Inflation(values, mean, squares), LeastIndependent, n);
        return new MeanOfSeries(mean, Math.Sqrt(squares / n / (effective - 1)), n - 1);
    }

    private static double Inflation(IReadOnlyList<double> values, double mean, double squares)
    {
        int n = values.Count;
        double inflation = 1;
        for (int k = 1; k < n && squares > 0; k++)
        {
            double product = 0;
            for (int i = 0; i + k < n; i++)
            {
                product += (values[i] - mean) * (values[i + k] - mean);
            }

            if (product <= 0)
            {
                break;
            }

            inflation += 2 * (1 - ((double)k / n)) * product / squares;
        }

        return inflation;
    }
}
