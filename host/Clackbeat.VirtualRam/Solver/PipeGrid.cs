using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>
/// The time step and the reaches of each section. One section is cut exactly; of several, each wave speed is moved a little so
/// that whole reaches fit (E. B. Wylie and V. L. Streeter, 1993, §3.3), and the step is chosen to move them least.
/// </summary>
internal sealed record PipeGrid(double StepS, IReadOnlyList<int> Reaches)
{
    // A wave speed off by this much is far below what is known of any pipe.
    private const double GoodEnough = 0.001;

    internal static PipeGrid Of(RamParameters ram)
    {
        double[] transits = [.. ram.Sections.Select(s => s.LengthM / QuickWaveSpeed(s))];
        double total = transits.Sum();
        int fewest = Math.Clamp((int)Math.Ceiling(total / ram.LongestStepS), 4, Math.Max(4, ram.MostReaches));
        if (transits.Length == 1)
        {
            return new PipeGrid(total / fewest, [fewest]);
        }

        (double Error, double StepS) best = (Error: double.MaxValue, StepS: total / fewest);
        // Up to half as fine again.
        for (int count = fewest; count <= fewest + fewest / 2 + 1 && best.Error > GoodEnough; count++)
        {
            double step = total / count;
            double error = transits.Max(t => Math.Abs(ReachesOf(t, step) * step / t - 1));
            best = error < best.Error ? (error, step) : best;
        }

        return new PipeGrid(best.StepS, [.. transits.Select(t => ReachesOf(t, best.StepS))]);
    }

    /// <summary>Wave speed of the prompt give alone: the one people measure includes the give of the first milliseconds [m/s].</summary>
    internal static double QuickWaveSpeed(PipeParameters pipe) => pipe.WaveSpeedMPerS * Math.Sqrt(1 + pipe.RetardedCompliance);

    private static int ReachesOf(double transitS, double stepS) => Math.Max(2, (int)Math.Round(transitS / stepS));
}
