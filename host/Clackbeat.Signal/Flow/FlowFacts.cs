using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Flow;

/// <summary>What is to be told beside the flows, gathered on the way to them.</summary>
internal sealed class FlowFacts
{
    /// <summary>What the record showed.</summary>
    public List<Fact> Findings { get; } = [];

    /// <summary>What could not be told or is weak, and why.</summary>
    public List<Fact> Limits { get; } = [];
}
