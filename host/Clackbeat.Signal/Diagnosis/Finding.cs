using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>A condition that the record speaks for.</summary>
/// <param name="Condition">Condition code of the contract.</param>
/// <param name="Probability">0 to 1.</param>
/// <param name="Evidence">What in the trace says so.</param>
/// <param name="Advice">What to look at first.</param>
public sealed record Finding(string Condition, double Probability, IReadOnlyList<Fact> Evidence, Fact Advice)
{
    /// <summary>The parts of the beat that show it, the clearest first.</summary>
    public IReadOnlyList<BeatPart> Parts { get; init; } = [];

    /// <summary>The changes of the beat that the evidence tells of, for those who put them in words of their own.</summary>
    public IReadOnlyList<FeatureChange> Features { get; init; } = [];
}
