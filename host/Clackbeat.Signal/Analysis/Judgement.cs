using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;

namespace Clackbeat.Signal.Analysis;

/// <summary>What matters most of a ram, the worst first.</summary>
public enum Standing
{
    /// <summary>The pressure is over the limit of the drive pipe or of a part of it.</summary>
    PipeOver,

    /// <summary>The drive pipe cracks before its design life, by every published curve.</summary>
    PipeFatigue,

    /// <summary>A fault is the likeliest finding.</summary>
    Look,

    /// <summary>The pressure is near the limit of the drive pipe.</summary>
    PipeNear,

    /// <summary>Beat and pipe are well, and likely so.</summary>
    Good,

    /// <summary>No fault was found, but a fault or the pipe's limit is not known well enough for an all-clear.</summary>
    Unsure,

    /// <summary>The beat was not judged.</summary>
    Plain,
}

/// <summary>
/// What an analysis comes to and what is to be done, free of words. Report, screen and live page take it from here, so that they can't
/// differ.
/// </summary>
public static class Judgement
{
    private const string Advice = "advice.";

    /// <summary>What matters most.</summary>
    /// <param name="analysis">The analysis.</param>
    public static Standing Of(RamAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        if (analysis.Pipe.Verdict == PipeVerdict.Over)
        {
            return Standing.PipeOver;
        }

        if (analysis.Pipe.FatigueVerdict == PipeVerdict.Over)
        {
            return Standing.PipeFatigue;
        }

        if (Worst(analysis) is not null)
        {
            return Standing.Look;
        }

        if (analysis.Pipe.Verdict == PipeVerdict.Near)
        {
            return Standing.PipeNear;
        }

        return !FindingRules.IsWell(analysis.Diagnosis) ? Standing.Plain
            : analysis.Diagnosis[0].Probability >= FindingRules.Likely && FindingRules.Rival(analysis.Diagnosis) is null && analysis.Pipe.Verdict == PipeVerdict.Within
                ? Standing.Good
                : Standing.Unsure;
    }

    /// <summary>The likeliest fault of a ram that is not found well; null where none is told. A stop is a state and no fault.</summary>
    /// <param name="analysis">The analysis.</param>
    public static Finding? Worst(RamAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        return FindingRules.IsWell(analysis.Diagnosis)
            ? null
            : analysis.Diagnosis.FirstOrDefault(f => f.Condition is not (Conditions.Healthy or Conditions.StoppedShut or Conditions.StoppedOpen));
    }

    /// <summary>
    /// What to do now, the most urgent first; never empty. Each is the end of the key of a phrase <c>page.…</c>: <c>todo.stop</c>,
    /// <c>check.supply-starved</c>, <c>caution.intake</c>.
    /// </summary>
    /// <param name="analysis">The analysis.</param>
    public static IReadOnlyList<string> ToDo(RamAnalysis analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        List<string> steps = [];
        if (Of(analysis) is Standing.PipeOver)
        {
            steps.Add("todo.stop");
        }
        else if (analysis.Pipe.FatigueVerdict == PipeVerdict.Over)
        {
            steps.Add("todo.replace");
        }
        else if (analysis.Pipe.Verdict == PipeVerdict.Near)
        {
            steps.Add("todo.near");
        }

        if (analysis.Diagnosis.Count == 0)
        {
            steps.Add(analysis.State == RamState.NoSignal ? "todo.no-signal" : "todo.record-again");
            return steps;
        }

        // Whether "nothing needs doing" may be said was decided with the finding itself, beside its rivals and the pipe.
        Finding first = analysis.Diagnosis[0];
        steps.Add($"check.{first.Advice.Code[Advice.Length..]}");
        if (Conditions.CautionOf(first.Condition) is { } caution)
        {
            steps.Add($"caution.{caution}");
        }

        return steps;
    }
}
