using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Season.Trend;

/// <summary>
/// Lines are laid through a slow bend, such as what water temperature does over a year, by breaking it into pieces. A change
/// that is meant to be told to a keeper must be a step that a bend through the days about it doesn't explain, and larger than
/// the steps that the same fit finds anywhere in the series: what neither supply level nor bend accounts for shows there too.
/// </summary>
/// <remarks>
/// The yardstick is the series itself (B. Efron, J. Amer. Stat. Assoc. 99 (2004) 96, doi:10.1198/016214504000000089: an empirical
/// null from the bulk of the statistics, here their median). The bar is what chance passes once in twenty series of that length,
/// every day counted as a try (Bonferroni).
/// </remarks>
internal sealed class StepTest(double[] x, double[] y)
{
    // Within two months either way a season bends no more than a parabola does.
    private const double Reach = 60;

    // Places at which the yardstick is taken; more change its median by less than a tenth.
    private const int Places = 200;
    private const int FewestPlaces = 5;

    private const double Chance = 0.05;
    private static readonly double ChiMedian = ChiSquared.InvCDF(1, 0.5);
    private readonly double _bar = ChiSquared.InvCDF(1, 1 - (Chance / y.Length));

    /// <summary>
    /// The steps among candidates: the most convincing is taken first, so that a true step is judged on the days about it and
    /// not on what other candidates leave of them; in the end each must still stand beside the others.
    /// </summary>
    /// <param name="candidates">First indices of the stretches but the first.</param>
    /// <param name="variance">Long-run variance of the noise from day to day.</param>
    public int[] Choose(IReadOnlyList<int> candidates, double variance)
    {
        List<int> kept = [];
        List<int> left = [.. candidates];
        while (left.Count > 0)
        {
            int best = left.MaxBy(c => Gain(kept, c) ?? 0);
            if (!Stands(kept, best, variance))
            {
                break;
            }

            kept.Add(best);
            left.Remove(best);
        }

        while (kept.Count > 0)
        {
            int weakest = kept.MinBy(c => Gain(kept, c) ?? 0);
            if (Stands(kept, weakest, variance))
            {
                break;
            }

            kept.Remove(weakest);
        }

        return [.. kept.Order()];
    }

    private bool Stands(List<int> kept, int step, double variance) =>
        Gain(kept, step) > _bar * Math.Max(variance, UsualGain(kept, step) / ChiMedian);

    // Squares that a step spares at the middle one of places all over the series, save those that see the step itself.
    private double UsualGain(List<int> kept, int step)
    {
        int stride = Math.Max(1, y.Length / Places);
        double[] gains =
        [
            .. Enumerable.Range(0, y.Length / stride).Select(i => i * stride)
                .Where(i => Math.Abs(x[i] - x[step]) > Reach && !kept.Contains(i)).Select(i => Gain(kept, i)).OfType<double>(),
        ];
        return gains.Length >= FewestPlaces ? gains.Median() : 0;
    }

    // Null where there are too few days on a side within the stretch.
    private double? Gain(List<int> starts, int at)
    {
        int from = starts.Where(s => s < at).DefaultIfEmpty(0).Max();
        int to = starts.Where(s => s > at).DefaultIfEmpty(y.Length).Min();
        while (x[at] - x[from] > Reach)
        {
            from++;
        }

        while (x[to - 1] - x[at] > Reach)
        {
            to--;
        }

        return at - from < ChangePoints.LeastPoints || to - at < ChangePoints.LeastPoints
            ? null
            : Rest(from, to, at, 3) - Rest(from, to, at, 4);
    }

    // Squares left by a parabola, and by one with a step: normal equations, safe since the abscissa runs from −1 to 1.
    private double Rest(int from, int to, int at, int columns)
    {
        Matrix<double> left = Matrix<double>.Build.Dense(columns, columns);
        Vector<double> right = Vector<double>.Build.Dense(columns);
        double squares = 0;
        double[] row = new double[columns];
        double level = y[at];
        for (int i = from; i < to; i++)
        {
            double u = (x[i] - x[at]) / Reach;
            double value = y[i] - level;
            (row[0], row[1], row[2]) = (1, u, u * u);
            if (columns > 3)
            {
                row[3] = i >= at ? 1 : 0;
            }

            squares += value * value;
            for (int r = 0; r < columns; r++)
            {
                right[r] += row[r] * value;
                for (int c = 0; c < columns; c++)
                {
                    left[r, c] += row[r] * row[c];
                }
            }
        }

        return squares - right.DotProduct(left.Solve(right));
    }
}
