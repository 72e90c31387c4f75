using Clackbeat.Season.Store;
using Clackbeat.Site.Facts;

namespace Clackbeat.Season.Overview;

/// <summary>A ram with what stands out about it.</summary>
/// <param name="Summary">What the store holds.</param>
/// <param name="Entry">What the list says; null for a ram that is not on it.</param>
/// <param name="Urgency">How soon somebody should go there.</param>
/// <param name="Reasons">Why, the most urgent first; none for a ram that is well.</param>
/// <param name="ToDo">What to do first; null for nothing.</param>
/// <param name="Condition">The likely fault, where one is worth a look.</param>
public sealed record RamVisit(
    RamSummary Summary, RamEntry? Entry, VisitUrgency Urgency, IReadOnlyList<Fact> Reasons, Fact? ToDo, (string Code, double Probability)? Condition)
{
    /// <summary>Water a day over the last week as a mean flow through day and night, stops counted [m³/s]; null where none is known.</summary>
    public SeasonValue? DailyM3PerS { get; init; }

    /// <summary>Flow while it beats, over what it was in the four weeks before; null where either is unknown or only a bound.</summary>
    public double? ShareOfUsual { get; init; }

    /// <summary>Water over need; null where either is unknown.</summary>
    public double? ShareOfNeed { get; init; }
}
