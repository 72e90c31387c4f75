using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Analysis;

/// <summary>
/// Whether the delivered flow is an upper bound. One tap at the body sees neither what runs back past a leaking delivery valve nor what
/// leaves a shut but leaking waste valve: both count as delivered. A leak of the delivery valve shifts the open valve's law and the anchor
/// of zero flow together, so the record alone can't tell it from a well ram that delivers more. Only a second fact can: a recording of the
/// same ram when it was well, or the water caught at the delivery outlet while this record was made.
/// </summary>
internal static class LeakBound
{
    /// <summary>
    /// Probability of either leak, judged against a baseline, from which the flow is a bound. Chosen on 34 virtual rams, reported on 34
    /// others (docs/flow-method.md). Lower than where both errors are equal: a flow
    /// overstated by a third does more harm than an "at most" too many. Without a baseline there is no such threshold: the probabilities of leaking and well rams overlap.
    /// </summary>
    internal const double LeastProbability = 0.05;

    /// <summary>Why the flow is a bound; null where it is a figure.</summary>
    /// <param name="leaks">Probabilities of the leaks; null where the beats could not be judged.</param>
    /// <param name="hasBaseline">Whether they were judged against the same ram when it was well.</param>
    /// <param name="isCaught">Whether a bucket at the delivery outlet, filled during this record, agrees with the flow.</param>
    public static Fact? Reason(LeakOdds? leaks, bool hasBaseline, bool isCaught)
    {
        if (isCaught)
        {
            return null;
        }

        return (leaks, hasBaseline) switch
        {
            ({ } odds, true) when odds.Either < LeastProbability => null,
            ({ } odds, true) => Fact.Of(
                "delivered-bound-leak", ("delivery_leak_probability", odds.Delivery), ("waste_leak_probability", odds.Waste)),
            (_, true) => Fact.Of("delivered-bound-not-judged"),
            _ => Fact.Of("delivered-bound-no-baseline"),
        };
    }

    /// <summary>Whether the water that arrived was caught during this record, and the flow agrees with it.</summary>
    public static bool IsCaught(RamSite site, FlowResult flow) =>
        site.BucketTests.Any(t => t is { Outlet: BucketOutlet.Delivery, OfThisRecord: true })
        && flow.Findings.All(f => f.Code != "bucket-disagrees-delivery");

    /// <summary>Whether a limit is such a reason.</summary>
    public static bool IsReason(Fact limit) => limit.Code is "delivered-bound-leak" or "delivered-bound-not-judged" or "delivered-bound-no-baseline";

    /// <summary>Flows whose delivered part is a bound; what was drawn holds it, so it is one too. The waste flow stays a figure.</summary>
    public static FlowSummary Of(FlowSummary flow) => flow with
    {
        DeliveredM3PerS = flow.DeliveredM3PerS?.AtMost(),
        DrawnM3PerS = flow.DrawnM3PerS?.AtMost(),
    };

    /// <summary>Efficiencies as bounds: each grows with the delivered flow.</summary>
    public static EfficiencySummary Of(EfficiencySummary efficiency) => new()
    {
        DAubuisson = efficiency.DAubuisson?.AtMost(),
        Rankine = efficiency.Rankine?.AtMost(),
        DriveSide = efficiency.DriveSide?.AtMost(),
    };
}
