using Clackbeat.Tuning.Search;

namespace Clackbeat.Tuning.Tests;

public class GaussianProcessTests
{
    private static readonly double[] X = [0.1, 0.35, 0.5, 0.8];
    private static readonly double[] Y = [-9.2, -9.0, -8.93, -9.1];
    private static readonly double[] Noise = [0.02, 0.015, 0.02, 0.03];

    /// <summary>Expected figures: NumPy 1.24.2 on the textbook's formulas, Fixtures/gaussian_process.py.</summary>
    [Theory]
    [InlineData(0.0, -9.264734020564, 0.040391942967)]
    [InlineData(0.42, -8.959506967333, 0.012968666554)]
    [InlineData(1.0, -9.251139512332, 0.090543339792)]
    public void Curve_and_uncertainty_are_those_of_another_solver(double place, double mean, double deviation)
    {
        var process = GaussianProcess.With(X, Y, Noise, 0.4, 0.25);

        Assert.Equal(mean, process.At(place).Mean, 9);
        Assert.Equal(deviation, process.At(place).Deviation, 9);
        Assert.Equal(2.948259833602515, process.LogLikelihood, 9);
    }

    [Fact]
    public void The_likeliest_bends_are_found_for_points_of_a_known_curve()
    {
        double[] x = [.. Enumerable.Range(0, 15).Select(i => i / 14.0)];
        double[] y = [.. x.Select(v => 0.3 * Math.Sin(2 * Math.PI * v))];
        var process = GaussianProcess.Fit(x, y, [.. x.Select(_ => 0.005)]);

        Assert.All(Enumerable.Range(0, 50), i => Assert.Equal(0.3 * Math.Sin(2 * Math.PI * i / 49), process.At(i / 49.0).Mean, 0.01));
    }

    // By hand: y = c + 2x + b·x with b ~ N(0, 0.1²). One point without noise gives c; a second at x = 1 gives b.
    [Fact]
    public void A_prior_curve_is_shifted_by_one_point_and_bent_by_a_second()
    {
        var prior = new PriorCurve([0, 1], [0, 2], [[0, 0.1]]);
        var one = GaussianProcess.With([0], [5.0], [0], 0.5, 1e-6, prior);
        Assert.Equal(6, one.At(0.5).Mean, 6);
        Assert.Equal(0.05, one.At(0.5).Deviation, 4);
        (double Mean, double Deviation) apart = one.Difference(0.5, 1);
        Assert.Equal(1, apart.Mean, 6);
        Assert.Equal(0.05, apart.Deviation, 4);

        var two = GaussianProcess.With([0, 1], [5, 7.2], [0, 0], 0.5, 1e-6, prior);
        Assert.Equal(6.1, two.At(0.5).Mean, 3);
        Assert.InRange(two.At(0.5).Deviation, 0, 1e-3);
    }
}
