using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace Clackbeat.Twin.Changes;

/// <summary>
/// Parameter sets one standard deviation from the fitted one, along the widest axes of its covariance in units of the prior: what moves a
/// prediction most is what the record sees least. The axes left out are held by the record.
/// </summary>
internal static class Neighbours
{
    private const int Axes = 4;

    internal static IEnumerable<double[]> Of(FittedTwin twin)
    {
        Matrix<double> scale = Matrix<double>.Build.DenseOfDiagonalArray([.. twin.Frame.Spread]);
        Matrix<double> inPriors = scale.Inverse() * twin.Covariance * scale.Inverse();
        Evd<double> own = inPriors.Evd(Symmetricity.Symmetric);
        IEnumerable<int> order = Enumerable.Range(0, TwinParameters.Count).OrderByDescending(i => own.EigenValues[i].Real).Take(Axes);
        foreach (int i in order)
        {
            Vector<double> move = scale * own.EigenVectors.Column(i) * Math.Sqrt(Math.Max(0, own.EigenValues[i].Real));
            yield return [.. twin.Values.Select((v, j) => v + move[j])];
        }
    }
}
