namespace Clackbeat.Signal.Diagnosis;

/// <summary>A feature against a well ram's.</summary>
/// <param name="ZScore">Distance from the mean in standard deviations.</param>
/// <param name="Change">The same in the feature's own unit.</param>
internal readonly record struct FeatureDistance(double ZScore, double Change);
