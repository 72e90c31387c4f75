using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.Season.Trend;

/// <summary>
/// Lines are laid through a slow bend, such as what water temperature does over a year, by breaking it into pieces. A change
/// that is meant to be told to a keeper must be a step that a bend through the days about it doesn't explain.
/// </summary>
internal static class StepTest
{
    // Within two months either way a season bends no more than a parabola does.
    private const double Reach = 60;

    /// <summary>What is left when the least convincing change has been struck out again and again.</summary>
    /// <param name="x">Abscissae.</param>
    /// <param name="y">Ordinates.</param>
    /// <param name="starts">First indices of the stretches but the first.</param>
    /// <param name="least">Squared residuals that a step must spare.</param>
    public static int[] Keep(double[] x, double[] y, IReadOnlyList<int> starts, double least)
    {
        List<int> kept = [.. starts];
        while (kept.Count > 0)
        {
            double[] gains = [.. Enumerable.Range(0, kept.Count).Select(i => Gain(x, y, kept, i))];
            int weakest = Array.IndexOf(gains, gains.Min());
            if (gains[weakest] > least)
            {
                break;
            }

            kept.RemoveAt(weakest);
        }

        return [.. kept];
    }

    private static double Gain(double[] x, double[] y, List<int> starts, int i)
    {
        int from = i == 0 ? 0 : starts[i - 1];
        int to = i + 1 < starts.Count ? starts[i + 1] : x.Length;
        double at = x[starts[i]];
        int[] near = [.. Enumerable.Range(from, to - from).Where(k => Math.Abs(x[k] - at) <= Reach)];
        if (near.Length < 5)
        {
            return 0;
        }

        double Rest(int columns)
        {
            var design = Matrix<double>.Build.Dense(near.Length, columns, (row, column) => column switch
            {
                3 => x[near[row]] >= at ? 1 : 0,
                _ => Math.Pow((x[near[row]] - at) / Reach, column),
            });
            var values = Vector<double>.Build.Dense(near.Length, row => y[near[row]]);
            double rest = (values - (design * design.QR().Solve(values))).L2Norm();
            return rest * rest;
        }

        return Rest(3) - Rest(4);
    }
}
