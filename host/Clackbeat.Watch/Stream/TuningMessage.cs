using Clackbeat.Signal.Figures;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;
using Clackbeat.Watch.Figures;
using Clackbeat.Watch.Tuning;
using Clackbeat.Watch.Wording;

namespace Clackbeat.Watch.Stream;

/// <summary>A figure in both systems of units.</summary>
internal sealed record BothUnits(Reading Metric, Reading Us)
{
    public static BothUnits? Of(QuantityKind kind, Figure? figure) => figure is { } f
        ? new BothUnits(Reading.Of(kind, f, Units.Metric), Reading.Of(kind, f, Units.Us))
        : null;
}

/// <summary>What is turned.</summary>
internal sealed record KnobMessage(string Name, string Unit, double Low, double High, double Step);

/// <summary>One trial, why it tells no flow in each language, where that is known; over where its peak, the ± added, is more than the pipe may bear again and again.</summary>
internal sealed record TrialMessage(
    double Setting, TrialLack Lack, IReadOnlyDictionary<string, string>? Why, string Note, bool IsOver, bool IsBest,
    BothUnits? Delivered, BothUnits? Waste, BothUnits? Efficiency, BothUnits? Peak, BothUnits? Rate)
{
    public static TrialMessage Of(Trial trial, Trial? best) => new(
        trial.Setting,
        trial.Works ? TrialLack.None : trial.Lack == TrialLack.None ? TrialLack.NoFlow : trial.Lack,
        trial is { Lack: TrialLack.NoFlow, Reason: { } reason } ? PageWords.Said(reason) : null,
        trial.Note,
        trial is { Works: true, WithinRating: false },
        trial == best,
        BothUnits.Of(QuantityKind.Flow, trial.DeliveredM3PerS),
        BothUnits.Of(QuantityKind.Flow, trial.WasteM3PerS),
        BothUnits.Of(QuantityKind.Share, trial.Efficiency),
        BothUnits.Of(QuantityKind.Pressure, trial.PeakPa),
        BothUnits.Of(QuantityKind.Frequency, trial.RatePerMin));
}

/// <summary>Two trials beside each other; how much better the second is for the aim [%].</summary>
internal sealed record PairMessage(int First, int Second, double Percent, bool Differ)
{
    public static PairMessage Of(TrialPair pair) => new(pair.First, pair.Second, Math.Round(100 * pair.Share, 2), pair.Differ);
}

/// <summary>What comes next.</summary>
internal sealed record AdviceMessage(
    double? Setting, AdviceReason Reason, int? Best, double? GainPercent, IReadOnlyList<int> Alike, bool WastesLess, RangeEnd BestAtEnd);

/// <summary>The drawing: [number, setting, value, low, high] of each trial, [setting, value, low, high] of the curve, SI units.</summary>
internal sealed record TuningPictureMessage(double[][] Trials, double[][] Curve, IReadOnlyList<BarredRange> Barred, double? AllowablePa);

/// <summary>A session to go on with.</summary>
internal sealed record KeptMessage(string Name, int Trials, KnobMessage Knob, TuningAim Aim);

/// <summary>All of the tuning that a page shows.</summary>
internal sealed record TuningMessage(
    int Revision, TuningPhase Phase, bool IsVirtual, IReadOnlyList<KnobHint> Hints, IReadOnlyList<KeptMessage> Kept,
    string? File, KnobMessage? Knob, TuningAim? Aim, BothUnits? Enough, IReadOnlyList<TrialMessage> Trials, IReadOnlyList<PairMessage> Pairs,
    AdviceMessage? Advice, TuningPictureMessage? Picture, double? Setting, bool IsReached, TrialMessage? Result, IReadOnlyList<PairMessage> ResultPairs,
    TuningProblem? Notice, int MostTrials)
{
    /// <summary>How things stand.</summary>
    public static TuningMessage Of(TuningDesk desk)
    {
        TuningState state = desk.State;
        TuningSession? session = state.Session;
        Findings? found = state.Found;
        return new TuningMessage(
            state.Revision, state.Phase, desk.RamKnob is not null, desk.RamKnob?.Hints ?? [],
            [.. state.Kept.Select(k => new KeptMessage(k.Name, k.Session.Trials.Count, Of(k.Session.Knob), k.Session.Aim))],
            state.File, session is null ? null : Of(session.Knob), session?.Aim, EnoughOf(session),
            [.. (session?.Trials ?? []).Select(t => TrialMessage.Of(t, found?.Advice.Best))],
            [.. (found?.Pairs ?? []).Select(PairMessage.Of)],
            found is null ? null : Of(found.Advice, session!),
            found is null ? null : Of(found.Picture, session!),
            state.Setting, state.Setting is { } setting && setting.Equals(state.Standing), state.Result is { } result ? TrialMessage.Of(result, null) : null,
            Against(session, state.Result), state.Notice, TuningSession.MostTrials);
    }

    private static KnobMessage Of(Knob knob) => new(knob.Name, knob.Unit, knob.Lowest, knob.Highest, knob.Step);

    private static BothUnits? EnoughOf(TuningSession? session) => session is { Aim: TuningAim.GentlestPeak, EnoughOrHalfM3PerS: > 0 and var enough }
        ? BothUnits.Of(QuantityKind.Flow, new Figure(enough, 0))
        : null;

    private static AdviceMessage Of(Advice advice, TuningSession session) => new(
        advice.Setting, advice.Reason,
        advice.Best is { } best ? session.Trials.ToList().IndexOf(best) : null,
        advice.Gain is { } gain ? Math.Round(100 * gain, 1) : null,
        [.. advice.Alike.Select(t => session.Trials.ToList().IndexOf(t))], advice.WastesLess, advice.BestAtEnd);

    private static TuningPictureMessage Of(TuningPicture picture, TuningSession session) => new(
        [.. picture.Trials.Select(t => new[] { t.Index, t.Setting, t.Value, t.Low, t.High })],
        [.. picture.Curve.Select(c => new[] { c.Setting, c.Value, c.Low, c.High })],
        picture.Barred,
        session.Working.Min(t => t.AllowablePa));

    private static PairMessage[] Against(TuningSession? session, Trial? result) => session is null || result is not { Works: true }
        ? []
        : [.. TrialDifferences.Of(session.With(result)).Where(p => p.Second == session.Trials.Count).Select(PairMessage.Of)];
}
