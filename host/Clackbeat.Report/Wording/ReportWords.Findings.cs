using Clackbeat.Records.Samples;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <content>What was found wrong, and how good the record is.</content>
internal static partial class ReportWords
{
    /// <summary>A condition code in words that follow "likely:".</summary>
    public static string Condition(string code) => Catalogue.Current.Condition(code);

    /// <summary>How sure a finding is.</summary>
    public static string Likelihood(double probability) => probability switch
    {
        >= FindingRules.Sure => Phrases.Say("report.almost-certainly"),
        >= FindingRules.Likely => Phrases.Say("report.probably"),
        >= FindingRules.Possible => Phrases.Say("report.possibly"),
        _ => Phrases.Say("report.cant-ruled-out"),
    };

    /// <summary>A share in round words, such as 70 in 100.</summary>
    public static string Odds(double probability) => Phrases.Say("report.about-100", ("odds", Math.Clamp(Math.Round(probability * 20) * 5, 5, 95)));

    public static string NoFindings => Phrases.Say("report.beat-measured-judged-report-names");

    public static Rich SignCaption => Phrases.Say("report.median-beat-record-shaded-stretch");

    public static Rich SignBesideCaption => Phrases.Say("report.dashed-line-median-beat-baseline");

    public static string Advice => Phrases.Say("report.what-look-first");

    public static string BeforeYouOpen => Phrases.Say("report.before-you-open-anything");

    /// <summary>The caution that goes with every piece of advice.</summary>
    public static Rich ShutFirst =>
        Phrases.Say("report.shut-gate-valve-drive-pipe");

    /// <summary>How well the board tells a sample's instant.</summary>
    public static string Times(BoardTiming board) => Phrases.Say(
        "report.each-good-to", ("bound_us", 1e6 * board.InstantBoundS), ("jitter_us", 1e6 * board.JitterS));

    /// <summary>Input quality in sentences.</summary>
    public static IEnumerable<Rich> InputNotes(InputSummary input)
    {
        if (input.AllLosses.Any())
        {
            yield return Catalogue.Current.Completeness(input.AllLosses);
        }

        if (input.ClippedSamples > 0)
        {
            yield return Rich.Say("report.samples-stood-end-sensors-range", ("clipped_samples", input.ClippedSamples));
        }

        if (input.Gaps.Count > 0)
        {
            yield return Rich.Say("report.gaps-all-gaps-left-empty", ("count", input.Gaps.Count), ("duration", Show.Duration(input.Gaps.Sum(g => g.LengthS))));
        }

        if (input.RepeatedTimestamps > 0)
        {
            yield return Rich.Say("report.samples-repeated-earlier-instant", ("repeated_timestamps", input.RepeatedTimestamps));
        }

        if (input.UnorderedTimestamps > 0)
        {
            yield return Rich.Say("report.samples-came-out-order-put", ("unordered_timestamps", input.UnorderedTimestamps));
        }

        if (input.SkippedRows > 0)
        {
            yield return Rich.Say("report.rows-held-no-usable-number", ("skipped_rows", input.SkippedRows));
        }
    }
}
