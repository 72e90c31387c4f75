using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.States;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Wording;

namespace Clackbeat.Watch.Figures;

/// <summary>Turns an analysis into the figures of the page, each with how it is to be taken.</summary>
internal sealed class FigureMaker(RamSite site, LiveBaseline? baseline)
{
    private readonly ExpectedRam _expected = ExpectedFigures.For(site).Ram;
    private readonly double _deliveryPa = ExpectedFigures.For(site).DeliveryPa;

    /// <summary>The figures of a window.</summary>
    /// <param name="analysis">What the window told.</param>
    /// <param name="state">What the ram is doing now, which a window knows only later.</param>
    public FigureSet Make(RamAnalysis analysis, LiveState state)
    {
        RamAnalysis seen = Seen(analysis, state);
        return new FigureSet
        {
            Beats = analysis.Beats.Count,
            SpanS = analysis.Input.DurationS,
            RateHz = analysis.Input.SampleRateHz,
            Gaps = analysis.Input.Gaps.Count,
            ClippedSamples = analysis.Input.ClippedSamples,
            HasBaseline = baseline?.Signature is not null,
            Tiles =
            [
                Measured(analysis, "rate", QuantityKind.Frequency, a => a.Beats.RatePerMin, _expected.BeatsPerMin),
                Measured(analysis, "delivered", QuantityKind.Flow, a => a.Flow.DeliveredM3PerS, _expected.DeliveredM3PerS),
                Measured(analysis, "waste", QuantityKind.Flow, a => a.Flow.WasteM3PerS, _expected.WasteM3PerS),
                Measured(analysis, "delivery", QuantityKind.Pressure, a => a.Pressure.Delivery, null),
                Peak(analysis),
                Measured(analysis, "efficiency", QuantityKind.Share, a => a.Efficiency.DAubuisson, _expected.DAubuisson),
                Measured(analysis, "velocity", QuantityKind.Velocity, a => a.Flow.ClosingVelocityMPerS, _expected.ClosingVelocityMPerS),
            ],
            Pipe = Bar(analysis),
            Standing = Judgement.Of(seen),
            ToDo = ToDo(seen),
            Findings = [.. seen.Diagnosis.Select(f => Finding(f, isJustSeen: !ReferenceEquals(seen, analysis)))],
            NoFinding = seen.Diagnosis.Count > 0 ? null : WhyWithheld(analysis),
        };
    }

    /// <summary>
    /// A figure against the same ram when it was well, where such a record is given, else against what such a site
    /// usually does: a wide band, in which only what lies clearly outside is worth a word.
    /// </summary>
    private Tile Measured(
        RamAnalysis analysis, string id, QuantityKind kind, Func<RamAnalysis, Figure?> pick, Band? expected)
    {
        if (pick(analysis) is not { } now)
        {
            return new Tile(id, null, null, Tone.None, WhyWithheld(analysis), null);
        }

        Tile judged = Judged(id, now, (Reading.Of(kind, now, Units.Metric), Reading.Of(kind, now, Units.Us)), pick, expected);

        // That a bound lies where a figure should says nothing: a leak may have taken any part of it.
        return now.IsUpperBound && judged.Tone == Tone.Good ? judged with { Tone = Tone.None, Note = "at-most" } : judged;
    }

    private Tile Judged(string id, Figure now, (Reading Metric, Reading Us) shown, Func<RamAnalysis, Figure?> pick, Band? expected)
    {
        (Reading metric, Reading us) = shown;
        if (baseline is { } well && pick(well.Analysis) is { } before && before.Value > 0)
        {
            double margin = double.Hypot(now.U, before.U);
            bool hasChanged = Math.Abs(now.Value - before.Value) > margin;
            return new Tile(
                id, metric, us, hasChanged ? Tone.Near : Tone.Good, hasChanged ? "changed" : "as-when-well",
                hasChanged ? 100 * ((now.Value / before.Value) - 1) : null);
        }

        return expected is not { } band
            ? new Tile(id, metric, us, Tone.None, null, null)
            : now.Value + now.U < band.Low ? new Tile(id, metric, us, Tone.Near, "below-usual", null)
            : now.Value - now.U > band.High ? new Tile(id, metric, us, Tone.Near, "above-usual", null)
            : new Tile(id, metric, us, Tone.Good, "as-usual", null);
    }

    private static Tile Peak(RamAnalysis analysis)
    {
        if (analysis.Pressure.PeakTrue is not { } peak)
        {
            return new Tile("peak", null, null, Tone.None, WhyWithheld(analysis), null);
        }

        (Tone tone, string note) = analysis.Pipe.PressureVerdict switch
        {
            PipeVerdict.Within => (Tone.Good, "pipe-within"),
            PipeVerdict.Near => (Tone.Near, "pipe-near"),
            PipeVerdict.Over => (Tone.Bad, "pipe-over"),
            _ => (Tone.None, "pipe-unknown"),
        };
        return new Tile(
            "peak", Reading.Of(QuantityKind.Pressure, peak, Units.Metric), Reading.Of(QuantityKind.Pressure, peak, Units.Us), tone, note, null);
    }

    private PipeBar Bar(RamAnalysis analysis) => new(
        analysis.Pipe.Verdict.ToString().ToLowerInvariant(),
        analysis.Pipe.FatigueVerdict.ToString().ToLowerInvariant(),
        analysis.Pressure.StaticPa,
        analysis.Pressure.Delivery?.Value ?? _deliveryPa,
        analysis.Pipe.PeakPa ?? analysis.Pressure.PeakTrue?.Value,
        analysis.Pipe.PeakUncertaintyPa ?? analysis.Pressure.PeakTrue?.U,
        analysis.Pipe.AllowablePa,
        analysis.Pipe.RatedPa,
        analysis.Pipe.Margin);

    // The page knows of a stop before the analysis does; what it shows above and below must not differ.
    private static RamAnalysis Seen(RamAnalysis analysis, LiveState state) => state switch
    {
        LiveState.StoppedOpen when analysis.State != RamState.StoppedOpen => Stopped(analysis, RamState.StoppedOpen, Conditions.StoppedOpen),
        LiveState.StoppedShut when analysis.State != RamState.StoppedShut => Stopped(analysis, RamState.StoppedShut, Conditions.StoppedShut),
        _ => analysis,
    };

    private static RamAnalysis Stopped(RamAnalysis analysis, RamState state, string condition) => analysis with
    {
        State = state,
        Diagnosis = [new Finding(condition, 1, [], ConditionTraits.Advice(condition)) { Parts = [BeatPart.Level] }],
    };

    // A record that tells too little is made again; a page waits, and says for what.
    private static IReadOnlyList<string> ToDo(RamAnalysis analysis) => analysis.Diagnosis.Count > 0
        ? Judgement.ToDo(analysis)
        : [.. Judgement.ToDo(analysis).SkipLast(1), $"finding.none.{WhyWithheld(analysis)}"];

    private static LiveFinding Finding(Finding finding, bool isJustSeen) => new(
        finding.Condition,
        isJustSeen ? null : finding.Probability,
        [.. finding.Features.Select(s => new FeatureWord(s.Feature.ToString(), s.Change))],
        // Only a fault of the sensor is told in whole sentences; the page makes the others of features and levels.
        PageWords.Said(finding.Condition == Conditions.SensorFault ? finding.Evidence : []),
        [.. finding.Parts.Select(p => p.ToString().ToLowerInvariant())]);

    // The page says what to wait for instead of showing a hole.
    private static string WhyWithheld(RamAnalysis analysis) =>
        analysis.Beats.Count == 0 || analysis.Limits.Any(l => l.Code is "flow-withheld-few-beats" or "diagnosis-few-beats" or "one-beat") ? "few-beats"
        : analysis.Limits.Any(l => l.Code is "flow-withheld-sampled-too-slowly" or "diagnosis-sampled-too-slowly") ? "sample-faster"
        : analysis.Input.ClippedSamples > 0 ? "clipped"
        : "not-told";
}
