using System.Globalization;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// From features to z-scores, z = (x − µ)/σ: how many standard deviations each lies from the mean of well rams, be it at this site and in
/// this kind of recording, or of the same ram before. The mean is a fitted parabola in each covariate (covariate adjustment, as in
/// C. R. Farrar, K. Worden, Structural Health Monitoring, Wiley 2013, ch. 12 on data normalisation). The standard deviation depends on the
/// circumstances too, its logarithm in a straight line (A. C. Harvey, Econometrica 44, 1976, 461: multiplicative heteroscedasticity): by a
/// slow logger, or on a pipe of plastic, features of well rams scatter more.
/// </summary>
internal sealed class ZScoreModel
{
    private static readonly Covariate[] All = Enum.GetValues<Covariate>();

    // Beyond what the study held, neither parabola nor line is followed further.
    private const double Farthest = 2.5;

    private readonly IReadOnlyDictionary<Feature, FeatureReference> _references;
    private readonly IReadOnlyList<CovariateScale> _covariates;

    public ZScoreModel(IReadOnlyDictionary<Feature, FeatureReference> references, IReadOnlyList<CovariateScale> covariates) =>
        (_references, _covariates) = (references, covariates);

    /// <summary>Reads the data file of a model.</summary>
    public static ZScoreModel Read(string name)
    {
        List<CovariateScale> covariates = DiagnosisData.Rows($"{name}-covariates.csv", row => new CovariateScale(
            Number(row["mean"].ToString()), Number(row["standard_deviation"].ToString()),
            Number(row["circumstance_mean"].ToString()), Number(row["circumstance_deviation"].ToString())));
        List<(Feature, FeatureReference)> references = DiagnosisData.Rows($"{name}-features.csv", row => (
            Enum.Parse<Feature>(row["feature"].ToString()),
            new FeatureReference(
                Number(row["mean"].ToString()), Number(row["standard_deviation"].ToString()), Number(row["floor"].ToString()),
                Number(row["low"].ToString()), Number(row["high"].ToString()), Numbers(row["coefficients"].ToString()), Numbers(row["scatter"].ToString()))));
        return new ZScoreModel(references.ToDictionary(u => u.Item1, u => u.Item2), covariates);
    }

    /// <summary>Writes the data files of a model.</summary>
    public void Write(string folder, string name)
    {
        File.WriteAllLines(Path.Combine(folder, $"{name}-covariates.csv"),
        [
            "covariate,mean,standard_deviation,circumstance_mean,circumstance_deviation",
            .. All.Zip(_covariates, (c, s) => string.Join(',', c, Text(s.Mean), Text(s.StandardDeviation), Text(s.CircumstanceMean), Text(s.CircumstanceDeviation))),
        ]);
        File.WriteAllLines(Path.Combine(folder, $"{name}-features.csv"),
        [
            "feature,mean,standard_deviation,floor,low,high,coefficients,scatter",
            .. _references.Select(u => string.Join(',',
                u.Key, Text(u.Value.Mean), Text(u.Value.StandardDeviation), Text(u.Value.Floor), Text(u.Value.Low), Text(u.Value.High),
                string.Join(' ', u.Value.Coefficients.Select(Text)), string.Join(' ', u.Value.Scatter.Select(Text)))),
        ]);
    }

    /// <summary>Terms of the parabolas: each covariate as a z-score, and its square.</summary>
    public static double[] Terms(IReadOnlyDictionary<Covariate, double> covariates, IReadOnlyList<CovariateScale> scales) =>
        [.. All.Select((c, i) => Standard(covariates, c, scales[i].Mean, scales[i].StandardDeviation)).SelectMany(x => new[] { x, x * x })];

    /// <summary>Terms of the scatter: each circumstance as a z-score.</summary>
    public static double[] ScatterTerms(IReadOnlyDictionary<Covariate, double> circumstances, IReadOnlyList<CovariateScale> scales) =>
        [.. All.Select((c, i) => Standard(circumstances, c, scales[i].CircumstanceMean, scales[i].CircumstanceDeviation))];

    /// <summary>How far each feature lies from a well ram's.</summary>
    public Dictionary<Feature, FeatureDistance> Of(Comparison record)
    {
        double[] terms = Terms(record.Covariates, _covariates);
        double[] scatter = ScatterTerms(record.Circumstances, _covariates);
        var distances = new Dictionary<Feature, FeatureDistance>();
        foreach ((Feature feature, double value) in record.Features)
        {
            if (_references.TryGetValue(feature, out FeatureReference? reference))
            {
                double change = value - reference.Mean - reference.Coefficients.Zip(terms, (s, t) => s * t).Sum();
                distances[feature] = new FeatureDistance(change / reference.DeviationAt(scatter), change);
            }
        }

        return distances;
    }

    /// <summary>Novelty: the share of the features that lie outside nearly everything the model was made from. Those it wasn't made from don't count.</summary>
    public double Novelty(IReadOnlyDictionary<Feature, double> features)
    {
        int known = features.Keys.Count(_references.ContainsKey);
        return known == 0 ? 1
            : features.Count(s => _references.TryGetValue(s.Key, out FeatureReference? reference) && (s.Value < reference.Low || s.Value > reference.High)) / (double)known;
    }

    private static double Standard(IReadOnlyDictionary<Covariate, double> values, Covariate covariate, double mean, double deviation) =>
        values.TryGetValue(covariate, out double value) && deviation > 0 ? Math.Clamp((value - mean) / deviation, -Farthest, Farthest) : 0;

    private static double[] Numbers(string text) => [.. text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Number)];

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string Text(double value) => value.ToString("G5", CultureInfo.InvariantCulture);
}
