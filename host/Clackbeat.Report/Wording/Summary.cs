using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Report.Wording;

/// <summary>The report's answer to "how is my ram?" for a page of plain text.</summary>
public static class Summary
{
    /// <summary>A few words, such as "Stop and check the pipe".</summary>
    /// <param name="analysis">The analysis.</param>
    public static string Label(RamAnalysis analysis) => ReportWords.Verdict(analysis).Label;

    /// <summary>The sentences, the worst news first.</summary>
    /// <param name="analysis">The analysis.</param>
    /// <param name="units">Units to write.</param>
    public static IReadOnlyList<string> Sentences(RamAnalysis analysis, Units units)
    {
        Verdict verdict = ReportWords.Verdict(analysis);
        return [.. verdict.Sentences.Prepend(verdict.Headline).Select(s => Text(s, units))];
    }

    /// <summary>The sentence that matters most.</summary>
    /// <param name="analysis">The analysis.</param>
    /// <param name="units">Units to write.</param>
    public static string Headline(RamAnalysis analysis, Units units) => Text(ReportWords.Verdict(analysis).Headline, units);

    /// <summary>What to do now, the most urgent first.</summary>
    /// <param name="analysis">The analysis.</param>
    public static IReadOnlyList<string> ToDo(RamAnalysis analysis) => ReportWords.ToDo(analysis);

    /// <summary>The two verdicts on the pipe in one line each; the second is null where nothing can be said of fatigue.</summary>
    /// <param name="pipe">The judged pipe.</param>
    public static (string Pressure, string? Fatigue) Pipe(Hydraulics.Rating.PipeCheck pipe) => (
        ReportWords.PipeHeading(pipe.Verdict),
        pipe.Fatigue is { Life: { } life } ? Text(Rich.Say("report.running-2", ("life", ReportWords.Life(life)), ("against", ReportWords.Against(pipe.FatigueVerdict))), Units.Metric) : null);

    /// <summary>A verdict as one word.</summary>
    /// <param name="verdict">The verdict.</param>
    public static string Word(Hydraulics.Rating.PipeVerdict verdict) => ReportWords.PipeVerdictWord(verdict);

    /// <summary>The name of a part of the line.</summary>
    /// <param name="name">As the check has it.</param>
    public static string PartName(string name) => ReportWords.PartName(name);

    private static string Text(Rich sentence, Units units) => string.Concat(sentence.Runs.Select(run =>
            run.Words ?? (units == Units.Us ? run.Quantity!.Value.Us : run.Quantity!.Value.Metric).ToString()))
        .Replace('\u00A0', ' ');
}
