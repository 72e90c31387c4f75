using Clackbeat.Signal.Diagnosis;
using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>Learns from single faults how far the features move with severity: a ridge regression for each condition.</summary>
internal static class StageFit
{
    // A share of the number of rows, against terms of about one.
    private const double Ridge = 0.3;

    /// <summary>Fits all conditions.</summary>
    /// <param name="rows">Rows.</param>
    /// <param name="columns">Columns of each.</param>
    public static Stage Of(IReadOnlyList<StudyRow> rows, double[][] columns) => new(Conditions.Beating
        .Where(c => c != Conditions.Healthy && rows.Any(r => r.Conditions.Count == 1 && r.Has(c)))
        .ToDictionary(c => c, c => Of([.. Enumerable.Range(0, rows.Count).Where(i => rows[i].Conditions.Count == 1 && rows[i].Has(c)).Select(i => (columns[i], rows[i].Severity))])));

    private static StageWeights Of((double[] Columns, double Severity)[] rows)
    {
        Matrix<double> terms = Matrix<double>.Build.DenseOfRowArrays(rows.Select(r => Stage.Terms(r.Columns)));
        Vector<double> middle = terms.ColumnSums() / rows.Length;
        double mean = rows.Average(r => r.Severity);
        Matrix<double> centred = Matrix<double>.Build.Dense(rows.Length, terms.ColumnCount, (i, j) => terms[i, j] - middle[j]);
        Matrix<double> normal = centred.TransposeThisAndMultiply(centred) + Matrix<double>.Build.DenseDiagonal(terms.ColumnCount, Ridge * rows.Length);
        Vector<double> weights = normal.Solve(centred.TransposeThisAndMultiply(Vector<double>.Build.Dense([.. rows.Select(r => r.Severity - mean)])));
        return new StageWeights(mean - (weights * middle), weights.ToArray());
    }
}
