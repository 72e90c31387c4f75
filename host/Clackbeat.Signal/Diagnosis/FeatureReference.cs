namespace Clackbeat.Signal.Diagnosis;

/// <summary>Mean and standard deviation of a feature over well rams at a site and in a recording, and what was seen of it at all.</summary>
/// <param name="Mean">Mean at the mean of the covariates.</param>
/// <param name="StandardDeviation">Standard deviation about the fitted mean at the mean of the circumstances, by the third quartile of the distances.</param>
/// <param name="Floor">Least standard deviation: what sampling and rounding alone can do to the feature.</param>
/// <param name="Low">Hardly any ram of the study lay lower.</param>
/// <param name="High">Hardly any ram of the study lay higher.</param>
/// <param name="Coefficients">Regression coefficients of the mean on each covariate and on its square.</param>
/// <param name="Scatter">Regression coefficients of the logarithm of the standard deviation on each circumstance.</param>
internal sealed record FeatureReference(
    double Mean, double StandardDeviation, double Floor, double Low, double High, IReadOnlyList<double> Coefficients, IReadOnlyList<double> Scatter)
{
    /// <summary>Standard deviation in some circumstances.</summary>
    /// <param name="terms">The circumstances as z-scores.</param>
    public double DeviationAt(IReadOnlyList<double> terms) => Math.Max(Floor, StandardDeviation * Math.Exp(Scatter.Zip(terms, (s, t) => s * t).Sum()));
}
