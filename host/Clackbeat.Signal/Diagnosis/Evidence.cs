using Clackbeat.Signal.Analysis;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>Turns what speaks for a condition into sentences.</summary>
internal static class Evidence
{
    private const int MostReasons = 3;

    // Nearer than this a sign is within its usual scatter and no reason to a reader, whatever it adds to the sum.
    private const double LeastDistance = 1.5;

    /// <summary>The finding for a condition.</summary>
    /// <param name="model">The model that judged.</param>
    /// <param name="condition">Condition code.</param>
    /// <param name="probability">Its probability.</param>
    /// <param name="reading">The record's signs beside what is usual.</param>
    /// <param name="against">What they are compared with, as the end of a sentence.</param>
    /// <param name="hasBaseline">Whether that is the same ram when it was well.</param>
    /// <param name="growth">The way here over earlier recordings; null without any.</param>
    public static Finding Finding(
        ConditionModel model, string condition, double probability, SignReading reading, string against, bool hasBaseline, Growth? growth)
    {
        ConditionText text = ConditionText.Of(condition);
        if (condition == Conditions.Healthy)
        {
            return new Finding(condition, probability, [Well(reading, hasBaseline)], text.Advice) { Parts = [text.Where] };
        }

        SignReason[] reasons =
        [
            .. model.Reasons(condition, reading)
                .Where(r => Math.Abs(r.Distance) >= LeastDistance)
                .DistinctBy(r => SignText.Of(r.Sign).Sentence(r.Change, ""))
                .Take(MostReasons),
        ];
        var sentences = new List<string>();
        if (reasons.Length > 0 && model.Stage?.Of(condition, reading.Columns) < Stage.Beginning)
        {
            sentences.Add("Its signs are small: if it is there at all, it is beginning.");
        }

        sentences.AddRange(reasons.Select(r => SignText.Of(r.Sign).Sentence(r.Change, against)));
        if (reasons.Length > 0 && growth?.Sentence(reasons[0]) is { } way)
        {
            sentences.Insert(sentences.Count - reasons.Length + 1, way);
        }

        if (reasons.Length == 0)
        {
            sentences.Add("Nothing in the beat speaks for it; it just can't be ruled out from this record.");
        }

        IReadOnlyList<BeatPart> parts = reasons.Length > 0 ? [.. reasons.Select(r => SignText.Of(r.Sign).Where).Distinct()] : [text.Where];
        return new Finding(condition, probability, sentences, text.Advice) { Parts = parts, Signs = [.. reasons.Select(r => new SignChange(r.Sign, r.Change))] };
    }

    private static string Well(SignReading reading, bool hasBaseline)
    {
        int far = reading.Distances.Values.Count(d => Math.Abs(d) > 3);
        string what = hasBaseline ? "when the ram was well" : "a well ram of this site should show";
        return FormattableString.Invariant(
            $"Of {reading.Distances.Count} things measured of the beat, {reading.Distances.Count - far} lie within three usual scatters of what {(hasBaseline ? "they were " : "")}{what}.");
    }
}
