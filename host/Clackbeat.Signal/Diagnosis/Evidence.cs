using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>What speaks for a condition, as facts.</summary>
internal static class Evidence
{
    private const int MostReasons = 3;

    // From here on the page says "probably": then it can't also be doubted that the fault is there.
    private const double Likely = 0.65;

    // Nearer than this a feature is within the scatter of a well ram and no reason to a reader, whatever it adds to the sum.
    private const double LeastZScore = 1.5;

    /// <summary>The finding for a condition.</summary>
    /// <param name="model">The model that judged.</param>
    /// <param name="condition">Condition code.</param>
    /// <param name="probability">Its probability.</param>
    /// <param name="scores">The record's z-scores.</param>
    /// <param name="hasBaseline">They are against the same ram when it was well, not against what its site leads to expect.</param>
    /// <param name="growth">The way here over earlier recordings; null without any.</param>
    public static Finding Finding(
        ConditionModel model, string condition, double probability, FeatureScores scores, bool hasBaseline, Growth? growth)
    {
        BeatPart where = ConditionTraits.Of(condition).Where;
        if (condition == Conditions.Healthy)
        {
            return new Finding(condition, probability, [Well(scores, hasBaseline)], ConditionTraits.Advice(condition)) { Parts = [where] };
        }

        FeatureAttribution[] reasons =
        [
            .. model.Reasons(condition, scores)
                .Where(r => Math.Abs(r.ZScore) >= LeastZScore && !IsTheLeakItself(r))
                .Take(MostReasons),
        ];
        var facts = new List<Fact>();
        if (reasons.Length > 0 && model.Stage?.Of(condition, scores.Columns) < Stage.Beginning)
        {
            facts.Add(probability >= Likely ? Fact.Of("evidence-beginning") : Fact.Of("evidence-beginning-unsure"));
        }

        Fact? way = null;
        foreach (FeatureAttribution reason in reasons)
        {
            facts.Add(FeatureTraits.Of(reason.Feature).Changed(reason.Change, hasBaseline));
            if (way is null && (way = growth?.Of(reason)) is not null)
            {
                facts.Add(way);
            }
        }

        if (reasons.Length == 0)
        {
            facts.Add(Fact.Of("evidence-none"));
        }

        IReadOnlyList<BeatPart> parts = reasons.Length > 0 ? [.. reasons.Select(r => FeatureTraits.Of(r.Feature).Where).Distinct()] : [where];
        return new Finding(condition, probability, facts, ConditionTraits.Advice(condition))
        {
            Parts = parts,
            Features = [.. reasons.Select(r => new FeatureChange(r.Feature, r.Change))],
        };
    }

    /// <summary>
    /// What runs back past the delivery valve counts as delivered in the flow's fit, so a leak looks like more of the water's energy
    /// arriving. It helps to tell the leak, but told to a keeper it would be the opposite of the truth.
    /// </summary>
    private static bool IsTheLeakItself(FeatureAttribution reason) => reason is { Feature: Feature.Yield, Change: > 0 };

    private static Fact Well(FeatureScores scores, bool hasBaseline)
    {
        int near = scores.Distances.Values.Count(d => Math.Abs(d.ZScore) <= 3);
        return hasBaseline
            ? Fact.Of("evidence-well-baseline", ("features", scores.Distances.Count), ("near", near))
            : Fact.Of("evidence-well-site", ("features", scores.Distances.Count), ("near", near));
    }
}
