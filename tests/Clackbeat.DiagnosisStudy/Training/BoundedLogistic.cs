namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>
/// Logistic regression with a ridge penalty and weights that may be kept from being positive: cyclic coordinate descent,
/// each step a Newton step on the quadratic that bounds the loss (its curvature is at most a quarter: D. Böhning,
/// B. G. Lindsay, Ann. Inst. Statist. Math. 40, 1988, doi:10.1007/BF00049423), so it always goes downhill.
/// </summary>
internal static class BoundedLogistic
{
    private const int MostSweeps = 400;
    private const double Settled = 1e-5;

    /// <summary>Fits the weights; the last column should be a constant 1 and is neither bounded nor penalised.</summary>
    /// <param name="rows">Inputs, one array a row.</param>
    /// <param name="yes">The answers.</param>
    /// <param name="counts">How much each row counts.</param>
    /// <param name="mayBePositive">For each column but the last: may its weight be positive?</param>
    /// <param name="ridge">Penalty on half the sum of the squared weights.</param>
    public static double[] Fit(IReadOnlyList<double[]> rows, IReadOnlyList<bool> yes, IReadOnlyList<double> counts, IReadOnlyList<bool> mayBePositive, double ridge)
    {
        int columns = rows[0].Length;
        double[] weights = new double[columns];
        double[] sums = new double[rows.Count];
        double[] bounds = new double[columns];
        for (int c = 0; c < columns; c++)
        {
            bounds[c] = (0.25 * rows.Select((r, i) => counts[i] * r[c] * r[c]).Sum()) + (c < columns - 1 ? ridge : 0) + 1e-9;
        }

        for (int sweep = 0; sweep < MostSweeps; sweep++)
        {
            double largest = 0;
            for (int c = columns - 1; c >= 0; c--)
            {
                bool constant = c == columns - 1;
                double gradient = constant ? 0 : -ridge * weights[c];
                for (int i = 0; i < sums.Length; i++)
                {
                    double x = rows[i][c];
                    if (x != 0)
                    {
                        gradient += counts[i] * x * ((yes[i] ? 1 : 0) - (1 / (1 + Math.Exp(-sums[i]))));
                    }
                }

                double to = weights[c] + (gradient / bounds[c]);
                to = constant || mayBePositive[c] ? to : Math.Min(0, to);
                double move = to - weights[c];
                if (Math.Abs(move) > 1e-12)
                {
                    for (int i = 0; i < sums.Length; i++)
                    {
                        sums[i] += move * rows[i][c];
                    }
                }

                weights[c] = to;
                largest = Math.Max(largest, Math.Abs(move));
            }

            if (largest < Settled)
            {
                break;
            }
        }

        return weights;
    }
}
