
namespace Clackbeat.Signal.Diagnosis;

/// <summary>How far a feature of the beat lies from where it should.</summary>
/// <param name="Feature">The feature.</param>
/// <param name="Change">Its change, in the feature's own measure.</param>
public readonly record struct FeatureChange(Feature Feature, double Change);
