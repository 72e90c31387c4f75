using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Content;
using Clackbeat.Signal.Analysis;

namespace Clackbeat.Report.Wording;

/// <summary>Every sentence the report can say, in one place, so that it can be read aloud, checked and one day translated.</summary>
internal static partial class Words
{
    public const string NotGiven = "not given";

    /// <summary>With a capital letter.</summary>
    public static string Capital(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    /// <summary>The answer to "how is my ram?".</summary>
    public static Verdict Verdict(RamAnalysis analysis)
    {
        Tone tone = ToneOf(analysis);
        Rich?[] sentences = [Water(analysis), Pressure(analysis), Clipped(analysis), Found(analysis)];
        return new Verdict(tone, Label(analysis, tone), Headline(analysis), [.. sentences.OfType<Rich>()]);
    }

    private static Tone ToneOf(RamAnalysis analysis)
    {
        if (analysis.Pipe.Verdict == PipeVerdict.Over)
        {
            return Tone.Stop;
        }

        if (analysis.State != RamState.Beating || analysis.Pipe.Verdict == PipeVerdict.Near || Worst(analysis) is not null)
        {
            return Tone.Look;
        }

        return IsHealthy(analysis) && analysis.Pipe.Verdict == PipeVerdict.Within ? Tone.Well : Tone.Plain;
    }

    private static string Label(RamAnalysis analysis, Tone tone) => (analysis.State, tone) switch
    {
        (_, Tone.Stop) => "Stop and check the pipe",
        (RamState.NoSignal, _) => "No signal",
        (not RamState.Beating, _) => "Stopped",
        (_, Tone.Well) => "Running well",
        (_, Tone.Look) => "Running, worth a look",
        _ => "Running",
    };

    private static Rich Headline(RamAnalysis analysis) => analysis.State switch
    {
        RamState.StoppedShut => "The ram stands still with its waste valve shut.".AsRich().Then(BeatBefore(analysis)),
        RamState.StoppedOpen => "The ram stands still with its waste valve open: water runs to waste.".AsRich().Then(BeatBefore(analysis)),
        RamState.NoSignal => "No ram can be seen in this record.",
        _ => Rate(analysis) is { } rate
            ? Rich.Of($"The ram beats {rate} times a minute{Evenness(analysis.Beats.Irregularity)}.")
            : "The ram beats, but the record is too short to tell how fast.",
    };

    private static Rich? BeatBefore(RamAnalysis analysis) => analysis.Beats.Count switch
    {
        0 => null,
        1 => "It beat once before it stopped.",
        int n => Rate(analysis) is { } rate
            ? Rich.Of($"Before it stopped it beat {n} times, at {rate} a minute.")
            : Rich.Of($"Before it stopped it beat {n} times."),
    };

    // Three digits: a sentence is for the ear, the table has the rest.
    private static Measure? Rate(RamAnalysis analysis) => Show.Of(Kind.Rate, analysis.Beats.RatePerMin?.Value) is { } rate
        ? Measure.Same(rate.Metric.Value)
        : null;

    // Where one word ends and the next begins is our own choice; the share itself stands in the table.
    private static string Evenness(double? irregularity) => irregularity switch
    {
        < 0.01 => ", as even as a clock",
        < 0.03 => ", evenly",
        < 0.08 => ", a little unevenly",
        >= 0.08 => ", unevenly",
        _ => "",
    };

    private static Rich? Water(RamAnalysis analysis)
    {
        Measure? delivered = Show.Of(Kind.Flow, analysis.Flow.DeliveredM3PerS);
        Measure? waste = Show.Of(Kind.Flow, analysis.Flow.WasteM3PerS);
        return (delivered, waste) switch
        {
            ({ } d, { } w) => Rich.Of($"It delivers {d} and lets {w} run to waste to do it."),
            ({ } d, null) => Rich.Of($"It delivers {d}."),
            _ => analysis.State == RamState.Beating ? "How much water it delivers could not be told from this record." : null,
        };
    }

    private static Rich? Pressure(RamAnalysis analysis)
    {
        if (Show.Of(Kind.Pressure, analysis.Pipe.PeakPa ?? analysis.Pressure.PeakMaxPa) is not { } peak)
        {
            return null;
        }

        Rich leap = Rich.Of($"At each beat the pressure leaps to as much as {peak}");
        Measure? limit = Show.Of(Kind.Pressure, analysis.Pipe.AllowablePa ?? analysis.Pipe.RatedPa);
        if (analysis.Pipe is { Verdict: PipeVerdict.Over, PressureVerdict: PipeVerdict.Within or PipeVerdict.Near })
        {
            return Rich.Of($"{leap}. The drive pipe may bear that once, but perhaps not for all the beats of its life: see below.");
        }

        return (analysis.Pipe.Verdict, limit) switch
        {
            (PipeVerdict.Within, { } most) => Rich.Of($"{leap}; the drive pipe may bear {most}, beat after beat."),
            (PipeVerdict.Near, { } most) => Rich.Of($"{leap}, which comes close to the {most} the drive pipe may bear, beat after beat."),
            (PipeVerdict.Over, { } most) => Rich.Of($"{leap}, more than the {most} the drive pipe may bear. Stop the ram, and have the pipe looked at before it runs again."),
            (PipeVerdict.Over, null) => Rich.Of($"{leap}, more than the drive pipe may bear. Stop the ram, and have the pipe looked at before it runs again."),
            (PipeVerdict.Unknown, _) => Rich.Of($"{leap}. Whether the drive pipe can bear that was not judged."),
            _ => Rich.Of($"{leap}."),
        };
    }

    private static Rich? Clipped(RamAnalysis analysis) => analysis.BeatList.Any(b => b.Clipped)
        ? "The sensor ran into the end of its range, so the true peaks are higher than shown."
        : null;

    private static Rich? Found(RamAnalysis analysis)
    {
        if (Worst(analysis) is { } worst)
        {
            return Rich.Of($"{Likelihood(worst.Probability)}: {Condition(worst.Condition)}. See what to look at first, below.");
        }

        return IsHealthy(analysis)
            ? Rival(analysis) is { } rival
                ? Rich.Of($"Nothing in its beat clearly speaks of a fault, but this can't be ruled out: {Condition(rival.Condition)}.")
                : "Nothing in its beat speaks of a fault."
            : analysis.State == RamState.Beating && analysis.Diagnosis.Count == 0 ? "Whether anything is wrong with it was not judged." : null;
    }

    private static Finding? Worst(RamAnalysis analysis) => analysis.Diagnosis.Count > 0 && !IsHealthy(analysis)
        ? analysis.Diagnosis.FirstOrDefault(f => f.Condition != "healthy" && !f.Condition.StartsWith("stopped-", StringComparison.Ordinal))
        : null;

    // A fault nearly as likely as a well ram is no fault found, but no all-clear either.
    private static Finding? Rival(RamAnalysis analysis) => analysis.Diagnosis.FirstOrDefault(
        f => f.Condition != "healthy" && f.Probability > 0.5 * analysis.Diagnosis[0].Probability);

    private static bool IsHealthy(RamAnalysis analysis) =>
        analysis.Diagnosis.Count > 0 && analysis.Diagnosis[0].Condition == "healthy";

    private static Rich AsRich(this string words) => words;
}
