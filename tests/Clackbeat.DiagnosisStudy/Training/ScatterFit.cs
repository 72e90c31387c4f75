using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>
/// Fits how the scatter of a feature depends on the circumstances: a straight line through the logarithms of the distances, by least
/// squares with a ridge (A. C. Harvey, Econometrica 44, 1976, 461, his first step).
/// </summary>
internal static class ScatterFit
{
    // In units of one record, as for the means.
    private const double Ridge = 30;

    /// <summary>The coefficients, one for each circumstance.</summary>
    /// <param name="circumstances">A row a record, as z-scores.</param>
    /// <param name="distances">Distance of each record's feature from its mean.</param>
    /// <param name="floor">What is nearer than this says nothing of scatter.</param>
    public static double[] Of(double[][] circumstances, double[] distances, double floor)
    {
        if (distances.Length == 0)
        {
            return [];
        }

        double[] logs = [.. distances.Select(d => Math.Log(Math.Max(d, 0.5 * floor)))];
        double mean = logs.Average();
        Matrix<double> terms = Matrix<double>.Build.DenseOfRowArrays(circumstances);
        Matrix<double> normal = terms.TransposeThisAndMultiply(terms) + Matrix<double>.Build.DenseDiagonal(terms.ColumnCount, Ridge);
        return [.. normal.Solve(terms.TransposeThisAndMultiply(Vector<double>.Build.Dense([.. logs.Select(l => l - mean)])))];
    }
}
