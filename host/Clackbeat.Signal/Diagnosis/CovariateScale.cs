namespace Clackbeat.Signal.Diagnosis;

/// <summary>Mean and standard deviation of a covariate over well records, for the mean of the features and for their scatter.</summary>
/// <param name="Mean">Of the covariate, which may be a change.</param>
/// <param name="StandardDeviation">Of the same.</param>
/// <param name="CircumstanceMean">Of the covariate itself.</param>
/// <param name="CircumstanceDeviation">Of the same.</param>
internal readonly record struct CovariateScale(double Mean, double StandardDeviation, double CircumstanceMean, double CircumstanceDeviation);
