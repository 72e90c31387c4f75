using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>A result that hangs on the time step is no result: halving it must change little, and ever less.</summary>
public class RefinementTests
{
    [Fact]
    public void Halving_the_step_moves_interval_and_volumes_by_ever_less_and_in_the_end_under_one_per_cent()
    {
        (double T, double W, double Q)[] results = new[] { 4e-4, 1e-4, 5e-5, 2.5e-5 }.Select(Run).ToArray();
        foreach (Func<(double T, double W, double Q), double> pick in new Func<(double T, double W, double Q), double>[] { r => r.T, r => r.W, r => r.Q })
        {
            double finest = pick(results[^1]);
            double[]? gaps = results.Take(3).Select(r => Math.Abs(pick(r) / finest - 1)).ToArray();
            Assert.True(gaps[2] < gaps[0], $"{gaps[0]:p2} {gaps[1]:p2} {gaps[2]:p2}");
            Assert.InRange(gaps[1], 0, 0.01);
        }
    }

    private static (double T, double W, double Q) Run(double stepS)
    {
        RamDesign design = TestRams.Smooth(TestRams.Pvc);
        RamParameters ram = TestRams.WithoutScatter(design) with { LongestStepS = stepS };
        Run run = TestRams.RunFor(design with { Ram = ram }, 15);
        return (run.Beats.Average(b => b.IntervalS), run.Beats.Average(b => b.WasteM3), run.Beats.Average(b => b.DeliveredM3));
    }
}
