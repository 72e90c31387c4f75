using Clackbeat.Signal.Flow;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>The derivatives carried along with the inversion, against differences of whole runs.</summary>
public sealed class ColumnSensitivityTests
{
    private const double StepOf = 1e-5;

    private static readonly ColumnModel Model = new(15, 1300, 2.5, 0.02, 0.08, 0.35);

    [Theory]
    [InlineData(1)]
    [InlineData(1.3)]
    public void Slopes_are_what_small_changes_make(double lossFactor)
    {
        (double[] times, double[] heads) = Record();
        double[] velocity = new double[times.Length];
        var sensitivities = new ColumnSensitivity[times.Length];
        ColumnModel model = Model.WithLoss(lossFactor);
        ColumnInversion.Run(times, heads, model, 0.4, lossFactor, velocity, sensitivities);
        Assert.Equal(Plain(times, heads, model, 0.4), velocity);
        AssertNear(model with { SupplyHeadM = 2.5 + StepOf }, model with { SupplyHeadM = 2.5 - StepOf }, 0, sensitivities.Select(s => s.Supply));
        AssertNear(model with { BiasM = 0.02 + StepOf }, model with { BiasM = 0.02 - StepOf }, 0, sensitivities.Select(s => s.Supply));
        AssertNear(Model.WithLoss(lossFactor + StepOf), Model.WithLoss(lossFactor - StepOf), 0, sensitivities.Select(s => s.Losses));
        AssertNear(model, model, StepOf, sensitivities.Select(s => s.Start));

        // The root's curvature changes its sign where the flow turns, so a difference across that is off by the step's order.
        void AssertNear(ColumnModel up, ColumnModel down, double start, IEnumerable<double> found)
        {
            double[] high = Plain(times, heads, up, 0.4 + start);
            double[] low = Plain(times, heads, down, 0.4 - start);
            Assert.Equal(high.Zip(low, (h, l) => (h - l) / (2 * StepOf)), found, (a, b) => Math.Abs(a - b) < 1e-3 * (1 + Math.Abs(a)));
        }
    }

    private static double[] Plain(double[] times, double[] heads, ColumnModel model, double start)
    {
        double[] velocity = new double[times.Length];
        ColumnInversion.Run(times, heads, model, start, velocity);
        return velocity;
    }

    // An open phase, a delivery with waves, a recoil that turns the flow, and a lost tenth of a second.
    private static (double[] Times, double[] Heads) Record()
    {
        double[] times = [.. Enumerable.Range(0, 1500).Select(i => 1e-3 * (i + (0.1 * Math.Sin(i)))).Where(t => t is < 0.5 or > 0.6)];
        return (times, [.. times.Select(t => t switch
        {
            < 0.8 => 0.2 * t,
            < 1.0 => 20 + (1.5 * Math.Sin(270 * t)),
            < 1.1 => -2,
            _ => 0.1,
        })]);
    }
}
