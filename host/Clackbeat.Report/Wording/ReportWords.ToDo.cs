using Clackbeat.Signal.Analysis;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <content>What to do now, in the fewest words that are safe. The whole advice stands beside each finding.</content>
internal static partial class ReportWords
{
    /// <summary>What to do now, the most urgent first; never empty.</summary>
    /// <param name="analysis">The analysis.</param>
    public static IReadOnlyList<string> ToDo(RamAnalysis analysis) => [.. Judgement.ToDo(analysis).Select(step => Phrases.Say($"page.{step}"))];
}
