using Clackbeat.Planning.Demand;
using Clackbeat.Planning.Others;
using Clackbeat.Planning.Wishes;
using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Plans;

/// <summary>The answer to a wish.</summary>
public sealed record RamPlan
{
    /// <summary>What was asked.</summary>
    public required PlanWish Wish { get; init; }

    /// <summary>Why no ram can do it; null where one can.</summary>
    public Fact? Refusal { get; init; }

    /// <summary>Ways to do it, the best first; empty where it can't be done.</summary>
    public IReadOnlyList<RamChoice> Choices { get; init; } = [];

    /// <summary>Other pumps on the same water.</summary>
    public IReadOnlyList<Alternative> Alternatives { get; init; } = [];

    /// <summary>Whether it is enough; null where no need was given or no ram can do it.</summary>
    public Sufficiency? Enough { get; init; }

    /// <summary>What weakens the plan or should be known.</summary>
    public IReadOnlyList<Fact> Remarks { get; init; } = [];

    /// <summary>What would change the plan.</summary>
    public IReadOnlyList<Fact> WouldChange { get; init; } = [];
}
