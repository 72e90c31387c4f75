using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace Clackbeat.Tuning.Search;

/// <summary>
/// A smooth curve through scattered points with the uncertainty between and beyond them: Gaussian-process regression with
/// the squared-exponential covariance and a constant mean (Rasmussen &amp; Williams, <em>Gaussian Processes for Machine
/// Learning</em>, MIT Press 2006, algorithm 2.1; the mean by generalised least squares, eq. 2.42). Length and height of the curve's bends are those of the
/// highest marginal likelihood on a grid, pulled by a broad prior, since a handful of points says little about them. Where a twin
/// expects a curve, the process is what the points differ from it by: its mean function (section 2.7) and the ways in which the
/// twin's parameters bend it are taken from there.
/// </summary>
public sealed class GaussianProcess
{
    // Of the knob's range. A response that bends more than five times over it is nothing a ram does.
    private static readonly double[] Lengths = [0.2, 0.28, 0.4, 0.56, 0.8, 1.1, 1.6];
    private static readonly double[] Heights = [0.03, 0.06, 0.12, 0.25, 0.5, 1];
    private const double UsualLength = 0.5;
    private const double UsualHeight = 0.25;

    // What a twin misses of a curve beyond its parameters, as a share (docs/tuning.md says on which rams it was chosen).
    private const double UsualMiss = 0.05;

    // Two points tell nothing of how the curve bends.
    private const int LeastToLearn = 3;

    private readonly PriorCurve? _prior;
    private readonly double[] _x;
    private readonly double _length;
    private readonly double _height;
    private readonly double _mean;
    private readonly Cholesky<double> _factor;
    private readonly Vector<double> _weights;
    private readonly double _meanWeight;

    private GaussianProcess(PriorCurve? prior, double[] x, Vector<double> y, double[] noise, double length, double height)
    {
        (_prior, _x, _length, _height) = (prior, x, length, height);
        Matrix<double> covariance = Matrix<double>.Build.Dense(x.Length, x.Length, (i, j) =>
            Covariance(x[i], x[j]) + (i == j ? (noise[i] * noise[i]) + 1e-10 : 0));
        _factor = covariance.Cholesky();
        Vector<double> ones = Vector<double>.Build.Dense(x.Length, 1);
        Vector<double> solved = _factor.Solve(ones);
        _meanWeight = solved.Sum();
        Vector<double> over = Vector<double>.Build.Dense(x.Length, i => y[i] - (prior?.At(x[i]) ?? 0));
        _mean = solved.DotProduct(over) / _meanWeight;
        Vector<double> left = over - _mean;
        _weights = _factor.Solve(left);
        LogLikelihood = (-0.5 * left.DotProduct(_weights)) - (0.5 * _factor.DeterminantLn)
            - (0.5 * x.Length * Math.Log(2 * Math.PI));
    }

    /// <summary>Log marginal likelihood of the points (Rasmussen &amp; Williams, eq. 2.30).</summary>
    public double LogLikelihood { get; }

    /// <summary>Fits points.</summary>
    /// <param name="x">Places, as shares of the range; at least one.</param>
    /// <param name="y">Values, same length.</param>
    /// <param name="noise">Standard uncertainty of each value, same length.</param>
    /// <param name="prior">What is expected of the curve; null for nothing.</param>
    public static GaussianProcess Fit(IReadOnlyList<double> x, IReadOnlyList<double> y, IReadOnlyList<double> noise, PriorCurve? prior = null)
    {
        ArgumentNullException.ThrowIfNull(x);
        double usualHeight = prior is null ? UsualHeight : UsualMiss;
        if (x.Count < LeastToLearn)
        {
            return With(x, y, noise, UsualLength, usualHeight, prior);
        }

        (double Posterior, GaussianProcess Process)? best = null;
        foreach (double length in Lengths)
        {
            foreach (double height in Heights)
            {
                GaussianProcess tried = With(x, y, noise, length, height, prior);
                double posterior = tried.LogLikelihood - Pull(length / UsualLength) - Pull(height / usualHeight);
                if (best is not { } known || posterior > known.Posterior)
                {
                    best = (posterior, tried);
                }
            }
        }

        return best!.Value.Process;
    }

    /// <summary>The curve for a given length and height of its bends.</summary>
    public static GaussianProcess With(
        IReadOnlyList<double> x, IReadOnlyList<double> y, IReadOnlyList<double> noise, double length, double height, PriorCurve? prior = null) =>
        new(prior, [.. x], Vector<double>.Build.DenseOfEnumerable(y), [.. noise], length, height);

    /// <summary>The curve and its standard uncertainty at a place.</summary>
    public (double Mean, double Deviation) At(double place)
    {
        Vector<double> across = Vector<double>.Build.Dense(_x.Length, i => Covariance(place, _x[i]));
        Vector<double> solved = _factor.Solve(across);
        double unexplained = 1 - solved.Sum();
        double variance = Covariance(place, place) - across.DotProduct(solved) + (unexplained * unexplained / _meanWeight);
        return (_mean + (_prior?.At(place) ?? 0) + across.DotProduct(_weights), Math.Sqrt(Math.Max(0, variance)));
    }

    /// <summary>The difference of the curve at two places, and its standard uncertainty: what both share cancels.</summary>
    public (double Mean, double Deviation) Difference(double from, double to)
    {
        Vector<double> acrossFrom = Vector<double>.Build.Dense(_x.Length, i => Covariance(from, _x[i]));
        Vector<double> acrossTo = Vector<double>.Build.Dense(_x.Length, i => Covariance(to, _x[i]));
        Vector<double> apart = acrossTo - acrossFrom;
        Vector<double> solved = _factor.Solve(apart);
        // The mean's own part is 1 at both places and cancels but for what the points explain of it.
        double unexplained = solved.Sum();
        double variance = Covariance(from, from) + Covariance(to, to) - (2 * Covariance(from, to)) - apart.DotProduct(solved)
            + (unexplained * unexplained / _meanWeight);
        double expected = (_prior?.At(to) ?? 0) - (_prior?.At(from) ?? 0);
        return (expected + apart.DotProduct(_weights), Math.Sqrt(Math.Max(0, variance)));
    }

    private double Covariance(double a, double b)
    {
        double apart = (a - b) / _length;
        return (_height * _height * Math.Exp(-0.5 * apart * apart)) + (_prior?.Covariance(a, b) ?? 0);
    }

    // Log-normal, a factor of two either way being one standard deviation.
    private static double Pull(double ratio)
    {
        double octaves = Math.Log2(ratio);
        return 0.5 * octaves * octaves;
    }
}
