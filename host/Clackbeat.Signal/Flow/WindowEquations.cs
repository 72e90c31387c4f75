using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.Signal.Flow;

/// <summary>Normal equations of one window: shared numbers, its starting velocity, and what couples them.</summary>
internal sealed class WindowEquations(int sharedCount)
{
    private readonly double[,] _shared = new double[sharedCount, sharedCount];
    private readonly double[] _gradient = new double[sharedCount];

    /// <summary>What couples each shared number with the starting velocity.</summary>
    public double[] Cross { get; } = new double[sharedCount];

    /// <summary>Weight of the starting velocity.</summary>
    public double StartWeight { get; private set; }

    /// <summary>Pull on the starting velocity.</summary>
    public double StartGradient { get; private set; }

    /// <summary>Sum of the weighted squares that are left over in this window.</summary>
    public double Misfit { get; set; }

    /// <summary>Part of the fitted heads' variance that is the sensor's noise, summed over the heads.</summary>
    public double NoiseWeight { get; set; }

    /// <summary>Part of that variance that the valve's law misses, summed over the heads.</summary>
    public double LawWeight { get; set; }

    /// <summary>Adds a residual.</summary>
    /// <param name="residual">Seen less expected.</param>
    /// <param name="weight">One over its variance.</param>
    /// <param name="jacobian">How what is expected moves with each shared number, and last with the starting velocity.</param>
    /// <param name="row">Row of the jacobian.</param>
    public void Add(double residual, double weight, double[,] jacobian, int row)
    {
        double start = jacobian[row, sharedCount];
        for (int p = 0; p < sharedCount; p++)
        {
            double weighted = weight * jacobian[row, p];
            _gradient[p] += weighted * residual;
            Cross[p] += weighted * start;
            for (int q = 0; q < sharedCount; q++)
            {
                _shared[p, q] += weighted * jacobian[row, q];
            }
        }

        StartWeight += weight * start * start;
        StartGradient += weight * start * residual;
    }

    /// <summary>Adds this window to the record's equations, its starting velocity eliminated (Schur complement).</summary>
    public void Eliminate(Matrix<double> normal, Vector<double> gradient)
    {
        StartWeight = Math.Max(StartWeight, 1e-9);
        for (int p = 0; p < sharedCount; p++)
        {
            gradient[p] += _gradient[p] - (Cross[p] * StartGradient / StartWeight);
            for (int q = 0; q < sharedCount; q++)
            {
                normal[p, q] += _shared[p, q] - (Cross[p] * Cross[q] / StartWeight);
            }
        }
    }
}
