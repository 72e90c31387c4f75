using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.Report.Wording;

/// <content>What was found wrong, and how good the record is.</content>
internal static partial class Words
{
    /// <summary>A condition code in words that follow "likely:".</summary>
    public static string Condition(string code) => ConditionText.Find(code)?.Name ?? code.Replace('-', ' ');

    /// <summary>How sure a finding is.</summary>
    public static string Likelihood(double probability) => probability switch
    {
        >= 0.9 => "Almost certainly",
        >= 0.65 => "Probably",
        >= 0.35 => "Possibly",
        _ => "Can't be ruled out",
    };

    /// <summary>A share in round words, such as 70 in 100.</summary>
    public static string Odds(double probability) => $"about {Math.Clamp(Math.Round(probability * 20) * 5, 5, 95):0} in 100";

    public const string NoFindings = "The beat was measured but not judged: this report names no fault, and does not say there is none.";

    public static readonly Rich SignCaption = "The median beat of this record. The shaded stretch is where the finding shows.";

    public static readonly Rich SignBesideCaption = " The dashed line is the median beat of the baseline, when the ram was well.";

    public const string Advice = "What to look at first";

    public const string BeforeYouOpen = "Before you open anything";

    /// <summary>The caution that goes with every piece of advice.</summary>
    public static readonly Rich ShutFirst =
        "Shut the gate valve in the drive pipe, hold the waste valve open until the drive pipe has drained its pressure, and shut "
        + "off and let down the delivery side too: the air vessel keeps its pressure long after the ram has stopped.";

    /// <summary>Input quality in sentences.</summary>
    public static IEnumerable<Rich> InputNotes(InputSummary input)
    {
        if (input.Completeness is { Length: > 0 } and not "complete")
        {
            yield return input.Completeness;
        }

        if (input.ClippedSamples > 0)
        {
            yield return Rich.Of($"{input.ClippedSamples} samples stood at an end of the sensor's range. What lies beyond it was not seen: a sensor with a wider range is needed.");
        }

        if (input.Gaps.Count > 0)
        {
            yield return Rich.Of($"{input.Gaps.Count} gaps, {Show.Duration(input.Gaps.Sum(g => g.LengthS))} in all. Gaps are left empty in plots and out of every figure; nothing was filled in.");
        }

        if (input.RepeatedTimestamps > 0)
        {
            yield return Rich.Of($"{input.RepeatedTimestamps} samples repeated an earlier instant.");
        }

        if (input.UnorderedTimestamps > 0)
        {
            yield return Rich.Of($"{input.UnorderedTimestamps} samples came out of order and were put in order.");
        }

        if (input.SkippedRows > 0)
        {
            yield return Rich.Of($"{input.SkippedRows} rows held no usable number and were left out.");
        }
    }
}
