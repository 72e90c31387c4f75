using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.HandTests;

/// <summary>
/// A record made once something was done at the ram, against the one before: what was done mends one cause and no other, so whether the
/// feature that this cause moves has moved back decides. The change is counted in standard deviations of the change between two records of a well ram.
/// </summary>
public static class RepeatReading
{
    /// <summary>Code of the test at another stroke.</summary>
    internal const string Stroke = "stroke";

    // One record in twenty would change as much by chance.
    private const double Deviations = 2;

    /// <summary>Reads the test.</summary>
    /// <param name="test">Code of the test.</param>
    /// <param name="before">The record that the sequence began with.</param>
    /// <param name="after">The record made once the steps were done.</param>
    public static TestResult Read(string test, RamAnalysis before, RamAnalysis after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        if (before.Signature is not { } was || after.Signature is not { } now)
        {
            return new TestResult(TestVerdict.Unclear, [Fact.Of("check-repeat-few-beats", ("beats_needed", SignatureMaker.LeastBeats))]);
        }

        IReadOnlyDictionary<Feature, FeatureDistance> distances = ConditionModel.AgainstBaseline.Score(Comparison.ByBaseline(now, was)).Distances;
        if (test == Stroke)
        {
            return Uneven(now);
        }

        (Feature feature, int sign) = Watched(test);
        if (!distances.TryGetValue(feature, out FeatureDistance distance))
        {
            return new TestResult(TestVerdict.Unclear, [Fact.Of("check-repeat-unseen")]);
        }

        return new TestResult(Judge(sign * distance.ZScore), [Fact.Of("check-repeat", ("what", FeatureTraits.Of(feature).Changed(distance.Change, hasBaseline: true)), ("deviations", Math.Abs(distance.ZScore)))]);
    }

    // A plug that hangs does so at any stroke; beats that a long stroke makes uneven are even at a shorter one.
    private static TestResult Uneven(Signature now)
    {
        IReadOnlyDictionary<Feature, FeatureDistance> distances = ConditionModel.AgainstSite.Score(Comparison.BySite(now)).Distances;
        return distances.TryGetValue(Feature.LongBeats, out FeatureDistance distance)
            ? new TestResult(JudgeStroke(distance.ZScore), [Fact.Of("check-repeat", ("what", FeatureTraits.Of(Feature.LongBeats).Changed(distance.Change, hasBaseline: false)), ("deviations", Math.Abs(distance.ZScore)))])
            : new TestResult(TestVerdict.Unclear, [Fact.Of("check-repeat-unseen")]);
    }

    /// <summary>What the stretch of the long beats at a shorter stroke means.</summary>
    /// <param name="deviations">Above a well ram's, in standard deviations.</param>
    internal static TestVerdict JudgeStroke(double deviations) => deviations > Deviations ? TestVerdict.StillUneven : TestVerdict.Even;

    /// <summary>The feature that shows whether the steps of a test have mended their cause, and which way it then moves.</summary>
    /// <param name="test">Code of the test.</param>
    internal static (Feature Feature, int Sign) Watched(string test) => test switch
    {
        "intake" => (Feature.OpenLength, -1),
        "bleed" => (Feature.WaveSpeed, 1),
        _ => (Feature.Plateau, -1),
    };

    /// <summary>What a change means.</summary>
    /// <param name="deviations">Change in the expected direction, in standard deviations.</param>
    internal static TestVerdict Judge(double deviations) => deviations > Deviations ? TestVerdict.Mended : TestVerdict.AsBefore;
}
