using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Live;

namespace Clackbeat.Watch.Figures;

/// <summary>Turns an analysis into the figures of the page, each with how it is to be taken.</summary>
internal sealed class FigureMaker(RamSite site, LiveBaseline? baseline)
{
    // Under these the flow is withheld or wide; the page says what to wait for instead of showing a hole.
    private const int LeastBeats = 6;
    private const double LeastPerPeriod = 3;

    private readonly ExpectedRam _expected = ExpectedFigures.For(site).Ram;
    private readonly double _deliveryPa = ExpectedFigures.For(site).DeliveryPa;

    /// <summary>The figures of a window.</summary>
    /// <param name="analysis">What the window told.</param>
    /// <param name="state">What the ram is doing now, which a window knows only later.</param>
    public FigureSet Make(RamAnalysis analysis, LiveState state) => new()
    {
        Beats = analysis.Beats.Count,
        SpanS = analysis.Input.DurationS,
        HasBaseline = baseline?.Signature is not null,
        Tiles =
        [
            Measured(analysis, "delivered", QuantityKind.Flow, a => a.Flow.DeliveredM3PerS, _expected.DeliveredM3PerS),
            Measured(analysis, "rate", QuantityKind.Frequency, a => a.Beats.RatePerMin, _expected.BeatsPerMin),
            Peak(analysis),
            Measured(analysis, "waste", QuantityKind.Flow, a => a.Flow.WasteM3PerS, _expected.WasteM3PerS),
            Measured(analysis, "efficiency", QuantityKind.Share, a => a.Efficiency.DAubuisson, _expected.DAubuisson),
            Measured(analysis, "delivery", QuantityKind.Pressure, a => a.Pressure.Delivery, null),
            Measured(analysis, "velocity", QuantityKind.Velocity, a => a.Flow.ClosingVelocityMPerS, _expected.ClosingVelocityMPerS),
        ],
        Pipe = Bar(analysis),
        Findings = Findings(analysis, state),
        NoFinding = analysis.Diagnosis.Count > 0 ? null : WhyWithheld(analysis),
    };

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

        (Reading metric, Reading us) = (Reading.Of(kind, now, Units.Metric), Reading.Of(kind, now, Units.Us));
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

    private Tile Peak(RamAnalysis analysis)
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
        analysis.Pressure.StaticPa,
        analysis.Pressure.Delivery?.Value ?? _deliveryPa,
        analysis.Pipe.PeakPa ?? analysis.Pressure.PeakTrue?.Value,
        analysis.Pipe.PeakUncertaintyPa ?? analysis.Pressure.PeakTrue?.U,
        analysis.Pipe.AllowablePa,
        analysis.Pipe.RatedPa,
        analysis.Pipe.Margin);

    private static IReadOnlyList<LiveFinding> Findings(RamAnalysis analysis, LiveState state) =>
        state is LiveState.StoppedOpen or LiveState.StoppedShut && analysis.State == RamState.Beating
            ? [new LiveFinding(state == LiveState.StoppedOpen ? Conditions.StoppedOpen : Conditions.StoppedShut, null, [], [], ["level"])]
            : [.. analysis.Diagnosis.Select(Finding)];

    private static LiveFinding Finding(Finding finding) => new(
        finding.Condition,
        finding.Probability,
        [.. finding.Signs.Select(s => new SignWord(s.Sign.ToString(), s.Change))],
        finding.Evidence,
        [.. finding.Parts.Select(p => p.ToString().ToLowerInvariant())]);

    private string WhyWithheld(RamAnalysis analysis) =>
        analysis.Beats.Count < LeastBeats ? "few-beats"
        : analysis.Input.SampleRateHz * _expected.PipePeriodS < LeastPerPeriod ? "sample-faster"
        : analysis.Input.ClippedSamples > 0 ? "clipped"
        : "not-told";
}
