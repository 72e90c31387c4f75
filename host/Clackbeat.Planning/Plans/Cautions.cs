using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Plans;

/// <summary>What every plan has to say, whatever its figures.</summary>
public static class Cautions
{
    /// <summary>The cautions in the order they are told; local codes and a licensed engineer have the last word.</summary>
    public static IReadOnlyList<Fact> All { get; } =
    [
        Fact.Of("plan-caution-flood"),
        Fact.Of("plan-caution-frost"),
        Fact.Of("plan-caution-rights"),
        Fact.Of("plan-caution-drinking"),
        Fact.Of("plan-caution-pressure"),
        Fact.Of("plan-caution-last-word"),
    ];
}
