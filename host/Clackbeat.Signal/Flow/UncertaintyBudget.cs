using System.Buffers;
using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.Signal.Flow;

/// <summary>
/// Combined standard uncertainty of the figures (JCGM 100:2008 §5): what the fit leaves open, with the correlations
/// between bias, supply head, losses and valve kept, and what enters from outside (length, wave speed, span), each by
/// fitting again with the quantity moved by its standard uncertainty, so that the fit's own answer to the move counts.
/// </summary>
internal static class UncertaintyBudget
{
    private const int RefitSteps = 3;

    // The fit takes what the valve's law misses as the same in every stretch and beat, the worst case. Against known flows
    // of the sweep (docs/flow-method.md) that reads twice too wide. Noise is what it is, and counts in full.
    private const double LawShare = 0.45;

    /// <summary>Combined standard uncertainties of the figures, in their units.</summary>
    public static FlowFigures Of(
        ColumnFit fit, IReadOnlyList<FlowWindow> windows, ColumnModel column, SiteUncertainty siteUncertainty, double waveUncertainty)
    {
        double[] centre = Figures(fit, fit.Shared, fit.StartVelocity, windows);
        double[] variance = FitVariance(fit, windows, centre);
        AddRefit(Refit(fit, windows, column with
        {
            LengthM = column.LengthM * (1 + siteUncertainty.Length),
            WaveSpeedMPerS = column.WaveSpeedMPerS * (1 + siteUncertainty.Length),
        }));
        AddRefit(Refit(fit, windows, column with { WaveSpeedMPerS = column.WaveSpeedMPerS * (1 + waveUncertainty) }));
        AddRefit(Refit(fit, [.. windows.Select(w => w.Scaled(1 + siteUncertainty.Gain))], column));
        return FlowFigures.FromArray([.. variance.Select(Math.Sqrt)]);

        void AddRefit(double[] moved)
        {
            for (int i = 0; i < variance.Length; i++)
            {
                variance[i] += Square(moved[i] - centre[i]);
            }
        }

        double[] Refit(ColumnFit from, IReadOnlyList<FlowWindow> moved, ColumnModel with)
        {
            var again = new ColumnFit(moved, with, from.SupplyUncertaintyM, from.NoiseM, from.OpenedShare, from.FloatingUncertaintyPerM, from.FollowsValve);
            again.StartFrom(from);
            return again.Solve(RefitSteps) ? Figures(again, again.Shared, again.StartVelocity, moved) : centre;
        }
    }

    /// <summary>The part the fit leaves open: shared numbers with the starting velocities following them, then those alone.</summary>
    private static double[] FitVariance(ColumnFit fit, IReadOnlyList<FlowWindow> windows, double[] centre)
    {
        Matrix<double> jacobian = Matrix<double>.Build.Dense(centre.Length, ColumnFit.SharedCount);
        for (int p = 0; p < ColumnFit.SharedCount; p++)
        {
            double step = 0.1 * Math.Sqrt(fit.Covariance[p, p]);
            double[] shared = [.. fit.Shared];
            shared[p] += step;
            double[] starts = [.. fit.StartVelocity.Select((v, j) => v + (fit.StartPull[j][p] * step))];
            double[] moved = Figures(fit, shared, starts, windows);
            for (int i = 0; i < centre.Length; i++)
            {
                jacobian[i, p] = (moved[i] - centre[i]) / step;
            }
        }

        Matrix<double> covariance = jacobian * fit.Covariance * jacobian.Transpose();
        const double shift = 1e-3;
        double[] lifted = Figures(fit, fit.Shared, [.. fit.StartVelocity.Select(v => v + shift)], windows);
        double startVariance = fit.StartWeight.Sum(w => 1 / w) / Square(windows.Count);
        double counted = fit.NoisePart + ((1 - fit.NoisePart) * LawShare * LawShare);
        return [.. centre.Select((c, i) => counted * (covariance[i, i] + (Square((lifted[i] - c) / shift) * startVariance)))];
    }

    private static double[] Figures(ColumnFit fit, double[] shared, double[] starts, IReadOnlyList<FlowWindow> windows)
    {
        ColumnModel model = fit.ModelOf(shared);
        var beats = new BeatBalance[windows.Count];
        Parallel.For(0, beats.Length, j =>
        {
            double[] velocity = ArrayPool<double>.Shared.Rent(windows[j].TimeS.Length);
            Span<double> v = velocity.AsSpan(0, windows[j].TimeS.Length);
            ColumnInversion.Run(windows[j].TimeS, windows[j].ColumnHeadM, model, starts[j], v);
            beats[j] = BeatBalance.Of(windows[j], model, v);
            ArrayPool<double>.Shared.Return(velocity);
        });

        return FlowFigures.Of(beats, model.BiasM).ToArray();
    }

    private static double Square(double x) => x * x;
}
