using Clackbeat.Twin.Model;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace Clackbeat.Twin.Fitting;

/// <summary>
/// Maximum a posteriori by Levenberg–Marquardt (MathNet.Numerics); the Jacobian is by differences wide enough to step over the
/// solver's own grain.
/// </summary>
internal sealed class TwinFit(TwinFrame frame, MeasuredCycle measured, CancellationToken cancellation)
{
    private const int MostRounds = 8;
    private const double DifferenceShare = 0.08;
    private const int MostLightenings = 12;
    private const double Lightening = 0.08;

    private readonly Misfit _misfit = new(measured);
    private readonly double[] _prior = TwinParameters.Start();

    /// <summary>Fits; null when no parameters make the twin beat.</summary>
    internal FittedTwin? Solve()
    {
        double[]? start = Beating();
        if (start is null)
        {
            return null;
        }

        int count = _misfit.Count + TwinParameters.Count;
        Vector<double> zero = Vector<double>.Build.Dense(count);
        IObjectiveModel objective = ObjectiveFunction.NonlinearModel((p, _) => Residuals(p), (p, _) => Slopes(p), zero, zero);
        NonlinearMinimizationResult result = new LevenbergMarquardtMinimizer(
            initialMu: 1e-3, gradientTolerance: 1e-2, stepTolerance: 3e-3, functionTolerance: 1e-3, maximumIterations: MostRounds)
            .FindMinimum(objective, Vector<double>.Build.DenseOfArray(start));
        Vector<double> best = result.MinimizingPoint;
        Cycle? cycle = Run(best);
        if (cycle is null)
        {
            best = Vector<double>.Build.DenseOfArray(start);
            cycle = Run(best)!;
        }

        Matrix<double> slopes = Slopes(best);
        Matrix<double> covariance = (slopes.Transpose() * slopes).PseudoInverse();
        Vector<double> residuals = Residuals(best);
        return new FittedTwin(frame, measured, [.. best], covariance, cycle, residuals.SubVector(0, _misfit.Count).PointwisePower(2).Sum());
    }

    private double[]? Beating()
    {
        double[]? values = TwinParameters.Start();
        for (int i = 0; i < MostLightenings; i++)
        {
            if (Run(Vector<double>.Build.DenseOfArray(values)) is not null)
            {
                return values;
            }

            values[(int)TwinParameter.LiftingHead] -= Lightening;
        }

        return null;
    }

    private Cycle? Run(Vector<double> values) => CycleRun.Of(frame.Ram([.. values]), measured.IntervalS, cancellation);

    private Vector<double> Residuals(Vector<double> values)
    {
        double[]? fit = _misfit.Of(Run(values));
        IEnumerable<double> prior = values.Select((v, i) => (v - _prior[i]) / TwinParameters.PriorSpread[i]);
        return Vector<double>.Build.DenseOfEnumerable(fit.Concat(prior));
    }

    private Matrix<double> Slopes(Vector<double> values)
    {
        Vector<double> at = Residuals(values);
        return Matrix<double>.Build.DenseOfColumnVectors(Enumerable.Range(0, values.Count).Select(i =>
        {
            double step = DifferenceShare * Math.Min(1, TwinParameters.PriorSpread[i]);
            Vector<double> moved = values.Clone();
            moved[i] += step;
            return (Residuals(moved) - at) / step;
        }));
    }
}
