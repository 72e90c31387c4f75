using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <summary>Every sentence the report can say, in one place, so that it can be read aloud, checked and one day translated.</summary>
internal static partial class ReportWords
{
    public static string NotGiven => Phrases.Say("report.not-given");

    /// <summary>With a capital letter.</summary>
    public static string Capital(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    /// <summary>
    /// The answer to "how is my ram?", the worst news first: a ram that stands still, then a pipe that may burst or crack, then a
    /// fault, then the rest.
    /// </summary>
    public static Verdict Verdict(RamAnalysis analysis)
    {
        Standing standing = Judgement.Of(analysis);
        Tone tone = ToneOf(analysis, standing);
        Rich?[] told = analysis.State == RamState.Beating
            ? standing is Standing.PipeOver or Standing.PipeFatigue
                ? [Pressure(analysis), Wear(analysis), Headline(analysis), Found(analysis), Water(analysis), Clipped(analysis)]
                : standing == Standing.Look
                    ? [Found(analysis), Headline(analysis), Pressure(analysis), Water(analysis), Clipped(analysis)]
                    : [Headline(analysis), Water(analysis), Pressure(analysis), Clipped(analysis), Found(analysis)]
            : [Headline(analysis), Pressure(analysis), Wear(analysis), Found(analysis), Water(analysis), Clipped(analysis)];
        Rich[] sentences = [.. told.Append(Lasting(analysis)).OfType<Rich>()];
        return new Verdict(tone, Label(analysis, tone), sentences[0], sentences[1..]);
    }

    // Someone may be hurt, or water lost for good: nothing comes before it but a ram that stands still.
    private static Tone ToneOf(RamAnalysis analysis, Standing standing) => standing switch
    {
        Standing.PipeOver or Standing.PipeFatigue => Tone.Stop,
        _ when analysis.State != RamState.Beating => Tone.Look,
        Standing.Look or Standing.PipeNear => Tone.Look,
        Standing.Good => Tone.Well,
        _ => Tone.Plain,
    };

    private static string Label(RamAnalysis analysis, Tone tone) => (analysis.State, tone) switch
    {
        (RamState.NoSignal, _) => Phrases.Say("report.no-signal"),
        (not RamState.Beating, Tone.Stop) => Phrases.Say("report.stopped-check-pipe-before-runs"),
        (not RamState.Beating, _) => Phrases.Say("report.stopped"),
        (_, Tone.Stop) => analysis.Pipe.Verdict == PipeVerdict.Over ? Phrases.Say("report.stop-check-pipe") : Phrases.Say("report.stop-replace-pipe"),
        (_, Tone.Well) => Phrases.Say("report.running-well"),
        (_, Tone.Look) => Phrases.Say("report.running-worth-look"),
        _ => Phrases.Say("report.running"),
    };

    private static Rich Headline(RamAnalysis analysis) => analysis.State switch
    {
        RamState.StoppedShut => Phrases.Say("report.ram-stands-still-waste-valve").AsRich().Then(BeatBefore(analysis)),
        RamState.StoppedOpen => Phrases.Say("report.ram-stands-still-waste-valve-2").AsRich().Then(BeatBefore(analysis)),
        RamState.NoSignal => Phrases.Say("report.no-ram-can-seen-record"),
        _ => Rate(analysis) is { } rate
            ? Rich.Say("report.ram-beats-times-minute", ("rate", rate), ("evenness", Evenness(analysis.Beats.Irregularity)))
            : Phrases.Say("report.ram-beats-record-too-short"),
    };

    private static Rich? BeatBefore(RamAnalysis analysis) => analysis.Beats.Count switch
    {
        0 => null,
        1 => Phrases.Say("report.beat-once-before-stopped"),
        int n => Rate(analysis) is { } rate
            ? Rich.Say("report.before-stopped-beat-times-minute", ("n", n), ("rate", rate))
            : Rich.Say("report.before-stopped-beat-times", ("n", n)),
    };

    // Three digits: a sentence is for the ear, the table has the rest.
    private static Measure? Rate(RamAnalysis analysis) => Show.Of(Kind.Rate, analysis.Beats.RatePerMin?.Value) is { } rate
        ? Measure.Same(rate.Metric.Value)
        : null;

    // Where one word ends and the next begins is our own choice; the share itself stands in the table.
    private static string Evenness(double? irregularity) => irregularity switch
    {
        < 0.01 => Phrases.Say("report.very-evenly"),
        < 0.03 => Phrases.Say("report.evenly"),
        < 0.08 => Phrases.Say("report.little-unevenly"),
        >= 0.08 => Phrases.Say("report.unevenly"),
        _ => "",
    };

    private static Rich? Water(RamAnalysis analysis)
    {
        if (analysis.IsStopped)
        {
            return WaterBefore(analysis);
        }

        Measure? delivered = Show.Of(Kind.Flow, analysis.Flow.DeliveredM3PerS);
        Measure? waste = Show.Of(Kind.Flow, analysis.Flow.WasteM3PerS);
        return (delivered, waste) switch
        {
            ({ } d, { } w) => Rich.Say("report.delivers-lets-run-waste-do", ("d", d), ("w", w)),
            ({ } d, null) => Rich.Say("report.delivers", ("d", d)),
            _ => analysis.State == RamState.Beating ? Phrases.Say("report.how-much-water-delivers-cant") : null,
        };
    }

    private static Rich WaterBefore(RamAnalysis analysis) =>
        analysis.WhileBeating is { } before && Show.Of(Kind.Flow, before.Flow.DeliveredM3PerS) is { } delivered
            ? Rich.Say("report.delivers-nothing-now-until-delivered", ("until", Until(analysis)), ("delivered", delivered))
            : Phrases.Say("report.delivers-nothing-now");

    /// <summary>When a ram that has stopped did its last beat.</summary>
    public static string Until(RamAnalysis analysis) =>
        Phrases.Say("report.into-record", ("duration", Show.Duration((analysis.WhileBeating?.UntilS ?? 0) - analysis.Input.StartS)));

    private static Rich? Pressure(RamAnalysis analysis)
    {
        if (Show.Of(Kind.Pressure, analysis.Pipe.PeakPa ?? analysis.Pressure.PeakMaxPa) is not { } peak)
        {
            return null;
        }

        Rich leap = analysis.State == RamState.Beating
            ? Rich.Say("report.each-beat-pressure-leaps", ("peak", peak))
            : Rich.Say("report.each-beat-pressure-leapt", ("peak", peak));
        Measure? limit = Show.Of(Kind.Pressure, analysis.Pipe.AllowablePa ?? analysis.Pipe.RatedPa);
        return (analysis.Pipe.Verdict, limit) switch
        {
            (PipeVerdict.Within, { } most) => Rich.Say("report.drive-pipes-limit-beat-after", ("leap", leap), ("most", most)),
            (PipeVerdict.Near, { } most) => analysis.Pipe.PressureVerdict == PipeVerdict.Near
                ? Rich.Say("report.close-drive-pipes-limit-beat", ("leap", leap), ("most", most))
                : Rich.Say("report.drive-pipes-limit-close-own", ("leap", leap), ("most", most), ("deciding", Deciding(analysis.Pipe))),
            (PipeVerdict.Over, { } most) => analysis.Pipe.PressureVerdict == PipeVerdict.Over
                ? Rich.Say("report.more-than-drive-pipes-limit", ("leap", leap), ("most", most), ("stop", Stop(analysis)))
                : Rich.Say("report.drive-pipes-limit-over-own", ("leap", leap), ("most", most), ("deciding", Deciding(analysis.Pipe)), ("stop", Stop(analysis))),
            (PipeVerdict.Over, null) => Rich.Say("report.more-than-drive-pipes-limit-2", ("leap", leap), ("stop", Stop(analysis))),
            (PipeVerdict.Unknown, _) => Rich.Say("report.whether-drive-pipe-can-take", ("leap", leap)),
            _ => Rich.Of($"{leap}."),
        };
    }

    private static string Stop(RamAnalysis analysis) => analysis.State == RamState.Beating
        ? Phrases.Say("report.stop-ram-pipe-looked-before")
        : Phrases.Say("report.pipe-looked-before-runs-again");

    private static string Deciding(PipeCheck pipe) => pipe.DecidedBy == PipeDecision.Folding
        ? Phrases.Say("report.suction-wall")
        : pipe.Fittings.FirstOrDefault(f => f.Verdict == pipe.Verdict && f.Name != FittingCheck.DrivePipe)?.Name ?? Phrases.Say("report.part-line");

    // Only where even the gentlest curve is short: otherwise the estimate is a range, and stands on the pipe's page.
    private static Rich? Wear(RamAnalysis analysis) => analysis.Pipe is { FatigueVerdict: PipeVerdict.Over, Fatigue.Life: { } life }
        ? Rich.Say("report.fatigue-will-crack-drive-pipe", ("high", Years(life.High)), ("design_life_years", Digits.Significant(analysis.Pipe.DesignLifeYears, 2)))
        : null;

    private static Rich? Lasting(RamAnalysis analysis) => analysis.Pipe is { FatigueVerdict: PipeVerdict.Near, Fatigue.Life: { } life }
        ? Rich.Say("report.how-long-pipe-lasts-open", ("low", Years(life.Low)), ("high", Years(life.High)))
        : null;

    private static Rich? Clipped(RamAnalysis analysis) => analysis.BeatList.Any(b => b.Clipped)
        ? Phrases.Say("report.sensor-ran-into-end-range")
        : null;

    private static Rich? Found(RamAnalysis analysis)
    {
        if (Judgement.Worst(analysis) is { } worst)
        {
            // Beside a ram that stands still, a long shot is noise.
            if (analysis.State != RamState.Beating && worst.Probability < FindingRules.LeastWorthChecking)
            {
                return null;
            }

            return Rich.Of($"{Likelihood(worst.Probability)}: {Condition(worst.Condition)}.");
        }

        return FindingRules.IsWell(analysis.Diagnosis)
            ? FindingRules.Rival(analysis.Diagnosis) is { } rival
                ? Rich.Say("report.beat-shows-no-clear-sign", ("condition", Condition(rival.Condition)))
                : analysis.Diagnosis[0].Probability >= FindingRules.Sure
                    ? Phrases.Say("report.beat-shows-no-sign-fault")
                    : Phrases.Say("report.no-fault-found-beat")
            : analysis.State == RamState.Beating && analysis.Diagnosis.Count == 0 ? Phrases.Say("report.whether-anything-wrong-judged") : null;
    }

    private static Rich AsRich(this string words) => words;
}
