using Clackbeat.Signal.Diagnosis;
using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>Fits the reference of the z-scores: how the features of well rams depend on the covariates, and their standard deviation about that.</summary>
internal static class ZScoreFit
{
    // In units of one well record; some records a term are plenty.
    private const double Ridge = 10;
    private const double Outlier = 4;
    private const int Rounds = 3;

    /// <summary>Fits all features.</summary>
    /// <param name="rows">Rows, well and ill.</param>
    /// <param name="changes">The features are changes: with the same covariates a well ram's are 0 by definition.</param>
    public static ZScoreModel Of(IReadOnlyList<StudyRow> rows, bool changes)
    {
        StudyRow[] well = [.. rows.Where(r => r.Conditions.Count == 0)];
        CovariateScale[] covariates = [.. Enum.GetValues<Covariate>().Select(c => ScaleOf(well, c, changes))];
        return new ZScoreModel(Expectations.Used.ToDictionary(s => s, s => Of(rows, well, s, covariates, changes)), covariates);
    }

    private static FeatureReference Of(IReadOnlyList<StudyRow> rows, StudyRow[] well, Feature feature, CovariateScale[] covariates, bool changes)
    {
        StudyRow[] known = [.. well.Where(r => r.Features.ContainsKey(feature))];
        double[] all = [.. rows.Where(r => r.Features.ContainsKey(feature)).Select(r => r.Features[feature]).Order()];
        double[][] terms = [.. known.Select(r => ZScoreModel.Terms(r.Covariates, covariates))];
        double[] values = [.. known.Select(r => r.Features[feature])];
        double mean = changes ? 0 : At([.. values.Order()], 0.5);
        double[] coefficients = new double[2 * covariates.Length];
        double[][] circumstances = [.. known.Select(r => ZScoreModel.ScatterTerms(r.Record.Circumstances, covariates))];
        double floor = Expectations.FloorOf(feature);
        double[] scatter = new double[covariates.Length];
        double[] shape = [.. known.Select(_ => 1.0)];
        double deviation = double.PositiveInfinity;
        for (int round = 0; round < Rounds; round++)
        {
            (mean, coefficients) = Fit(terms, values, mean, coefficients, [.. shape.Select(w => w * deviation)], changes);
            double[] off = [.. terms.Select((t, i) => Math.Abs(values[i] - mean - Dot(t, coefficients)))];
            scatter = ScatterFit.Of(circumstances, off, floor);
            shape = [.. circumstances.Select(c => Math.Exp(Dot(c, scatter)))];

            // Three quarters of normal values lie within 1.15 standard deviations.
            deviation = Math.Max(At([.. off.Select((o, i) => o / shape[i]).Order()], 0.75) / 1.15, 1e-9);
        }

        return new FeatureReference(mean, deviation, floor, At(all, 0.002), At(all, 0.998), coefficients, scatter);
    }

    private static (double Mean, double[] Coefficients) Fit(
        double[][] terms, double[] values, double mean, double[] coefficients, double[] deviations, bool changes)
    {
        int count = coefficients.Length + 1;
        Matrix<double> normal = Matrix<double>.Build.DenseDiagonal(count, count, Ridge);
        normal[count - 1, count - 1] = changes ? 1e12 : 1e-9;
        Vector<double> right = Vector<double>.Build.Dense(count);
        for (int i = 0; i < values.Length; i++)
        {
            if (Math.Abs(values[i] - mean - Dot(terms[i], coefficients)) > Outlier * deviations[i])
            {
                continue;
            }

            Vector<double> row = Vector<double>.Build.Dense([.. terms[i], 1]);
            normal += row.OuterProduct(row);
            right += values[i] * row;
        }

        Vector<double> found = normal.Solve(right);
        return (changes ? 0 : found[count - 1], found.SubVector(0, count - 1).ToArray());
    }

    private static CovariateScale ScaleOf(StudyRow[] well, Covariate covariate, bool changes)
    {
        (double mean, double deviation) = MeanAndDeviation(well, r => r.Record.Covariates, covariate, changes);
        (double around, double scatter) = MeanAndDeviation(well, r => r.Record.Circumstances, covariate, false);
        return new CovariateScale(mean, deviation, around, scatter);
    }

    private static (double Mean, double StandardDeviation) MeanAndDeviation(
        StudyRow[] well, Func<StudyRow, IReadOnlyDictionary<Covariate, double>> of, Covariate covariate, bool changes)
    {
        double[] values = [.. well.Select(of).Where(v => v.ContainsKey(covariate)).Select(v => v[covariate])];
        double mean = changes || values.Length == 0 ? 0 : values.Average();
        return (mean, values.Length == 0 ? 0 : Math.Sqrt(values.Average(v => (v - mean) * (v - mean))));
    }

    private static double Dot(double[] terms, double[] coefficients) => terms.Zip(coefficients, (t, s) => t * s).Sum();

    private static double At(double[] sorted, double share) =>
        sorted.Length == 0 ? 0 : sorted[(int)Math.Round(share * (sorted.Length - 1))];
}
