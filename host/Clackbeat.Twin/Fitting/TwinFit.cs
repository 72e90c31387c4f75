using Clackbeat.Twin.Model;
using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.Twin.Fitting;

/// <summary>
/// Maximum a posteriori by Gauss and Newton with Levenberg's damping. A ram's beat moves in small jumps with its parameters: a valve bounces
/// once more or less. So slopes are central differences over about the width that the record leaves open, several dampings are tried at
/// once, and the best point ever seen is gone on from.
/// </summary>
internal sealed class TwinFit(TwinFrame frame, MeasuredCycle measured, IProgress<double>? progress, CancellationToken cancellation)
{
    private const int MostRounds = 7;
    private const int MostLightenings = 12;
    private const double Lightening = 0.08;

    // Differences go as wide as a standard deviation of what is left open, within these shares of the prior's.
    private const double WidthOfSpread = 0.7;
    private const double NarrowestOfPrior = 0.08;
    private const double WidestOfPrior = 0.5;

    // A round that gains less than this share of the sum of squares has gained nothing.
    private const double LeastGain = 0.02;
    private const int MostIdleRounds = 2;

    private static readonly double[] Dampings = [0, 0.1, 1, 10];

    private readonly Misfit _misfit = new(measured);
    private readonly double[] _prior = TwinParameters.Start();
    private Point _best = null!;

    /// <summary>Fits; null when no parameters make the twin beat.</summary>
    internal FittedTwin? Solve()
    {
        if (Beating() is not { } start)
        {
            return null;
        }

        _best = start;
        Vector<double> widths = Vector<double>.Build.DenseOfEnumerable(frame.Spread) * WidestOfPrior;
        Matrix<double> covariance = null!;
        int idle = 0;
        for (int round = 0; round <= MostRounds && idle < MostIdleRounds; round++)
        {
            progress?.Report((double)round / (MostRounds + 1));
            Point from = _best;
            Matrix<double> slopes = Slopes(from, widths);
            covariance = (slopes.Transpose() * slopes).PseudoInverse();
            widths = Widths(covariance);
            if (round < MostRounds)
            {
                Look([.. Dampings.Select(damping => Step(from, slopes, damping))]);
            }

            idle = _best.Sum < (1 - LeastGain) * from.Sum ? 0 : idle + 1;
        }

        double misfit = _best.Residuals.SubVector(0, _misfit.Count).PointwisePower(2).Sum();
        // A twin that misses its record by more than was allowed for is less sure in all it says: the ratio of R. T. Birge (1932).
        double birge = Math.Max(1, misfit / _misfit.Worth);
        return new FittedTwin(frame, measured, [.. _best.Values], birge * covariance, _best.Cycle!, misfit) { Birge = birge };
    }

    private Point? Beating()
    {
        double[] values = TwinParameters.Start();
        for (int i = 0; i < MostLightenings; i++)
        {
            if (At(Vector<double>.Build.DenseOfArray(values)) is { Cycle: not null } beats)
            {
                return beats;
            }

            values[(int)TwinParameter.LiftingHead] -= Lightening;
        }

        return null;
    }

    private static Vector<double> Step(Point from, Matrix<double> slopes, double damping)
    {
        Matrix<double> normal = slopes.Transpose() * slopes;
        Vector<double> diagonal = normal.Diagonal();
        normal.SetDiagonal(diagonal * (1 + damping));
        return from.Values - normal.Solve(slopes.Transpose() * from.Residuals);
    }

    private Vector<double> Widths(Matrix<double> covariance) => Vector<double>.Build.Dense(covariance.RowCount, i =>
    {
        double prior = frame.Spread[i];
        return Math.Clamp(WidthOfSpread * Math.Sqrt(Math.Max(0, covariance[i, i])), NarrowestOfPrior * prior, WidestOfPrior * prior);
    });

    // Central differences; a side on which the twin stands is left out.
    private Matrix<double> Slopes(Point from, Vector<double> widths)
    {
        Point[] sides = Look([.. Enumerable.Range(0, widths.Count).SelectMany(i => new[] { Moved(from.Values, i, widths[i]), Moved(from.Values, i, -widths[i]) })]);
        return Matrix<double>.Build.DenseOfColumnVectors(sides.Chunk(2).Select((pair, i) =>
        {
            (Point above, Point below) = (pair[0], pair[1]);
            Point high = above.Cycle is null && below.Cycle is not null ? from : above;
            Point low = below.Cycle is null ? from : below;
            return (high.Residuals - low.Residuals) / (high.Values[i] - low.Values[i]);
        }));
    }

    private static Vector<double> Moved(Vector<double> values, int i, double by)
    {
        Vector<double> moved = values.Clone();
        moved[i] += by;
        return moved;
    }

    // Runs know nothing of each other, so every core takes some; the best is chosen in their order, whatever the number of cores.
    private Point[] Look(Vector<double>[] places)
    {
        Point[] points = SideBySide.Of(places.Length, i => At(places[i]), cancellation);
        _best = points.Where(p => p.Cycle is not null).Append(_best).MinBy(p => p.Sum)!;
        return points;
    }

    private Point At(Vector<double> values)
    {
        Cycle? cycle = CycleRun.Of(frame.Ram([.. values]), measured.IntervalS, cancellation);
        IEnumerable<double> prior = values.Select((v, i) => (v - _prior[i]) / frame.Spread[i]);
        Vector<double> residuals = Vector<double>.Build.DenseOfEnumerable(_misfit.Of(cycle).Concat(prior));
        return new Point(values, residuals, residuals.DotProduct(residuals), cycle);
    }

    /// <summary>A set of parameters that was looked at.</summary>
    private sealed record Point(Vector<double> Values, Vector<double> Residuals, double Sum, Cycle? Cycle);
}
