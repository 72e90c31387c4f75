using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <content>What to do now, in the fewest words that are safe. The whole advice stands beside each finding.</content>
internal static partial class ReportWords
{
    /// <summary>What to do now, the most urgent first; never empty.</summary>
    /// <param name="analysis">The analysis.</param>
    public static IReadOnlyList<string> ToDo(RamAnalysis analysis)
    {
        List<string> steps = [];
        if (analysis.Pipe.Verdict == PipeVerdict.Over)
        {
            steps.Add(Phrases.Say("report.todo-stop"));
        }
        else if (analysis.Pipe.FatigueVerdict == PipeVerdict.Over)
        {
            steps.Add(Phrases.Say("report.todo-replace"));
        }
        else if (analysis.Pipe.Verdict == PipeVerdict.Near)
        {
            steps.Add(Phrases.Say("report.todo-near"));
        }

        if (analysis.Diagnosis.Count == 0)
        {
            steps.Add(Phrases.Say(analysis.State == RamState.NoSignal ? "report.todo-no-signal" : "report.todo-record-again"));
            return steps;
        }

        Finding first = analysis.Diagnosis[0];
        steps.Add(Phrases.Say($"page.check.{(first.Condition == Conditions.Healthy ? OfWell(analysis, steps.Count > 0) : first.Condition)}"));
        if (Conditions.CautionOf(first.Condition) is { } caution)
        {
            steps.Add(Phrases.Say($"page.caution.{caution}"));
        }

        return steps;
    }

    // "Nothing needs doing" is said only of a ram that is well beyond doubt, on a pipe within its limit.
    private static string OfWell(RamAnalysis analysis, bool isPipeInNeed) =>
        isPipeInNeed ? "healthy-beside-pipe" : Rival(analysis) is not null ? "healthy-doubtful" : "healthy";
}
