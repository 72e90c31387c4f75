using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Model;
using Clackbeat.Tuning.Trials;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;

namespace Clackbeat.Tuning.Twins;

/// <summary>
/// Fits a twin to a trial's record. Its flows are then those of record and twin together, as everywhere beside a twin, and the first trial
/// of a session also tells what to expect of all other settings.
/// </summary>
public static class TrialTwin
{
    private const int Points = 12;

    /// <summary>The trial with what its twin tells; as it was where it doesn't work, or no twin fits. It takes some seconds.</summary>
    /// <param name="session">The session before the trial.</param>
    /// <param name="site">The site.</param>
    /// <param name="analysis">Analysis of the trial's record.</param>
    /// <param name="trial">The trial by its record alone.</param>
    /// <param name="cancellation">Ends the work early.</param>
    public static Trial Of(TuningSession session, RamSite site, RamAnalysis analysis, Trial trial, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(session);
        ArgumentNullException.ThrowIfNull(trial);
        if (!trial.Works || FittedTwin.Of(site, analysis, cancellation) is not { Fits: true } twin)
        {
            return trial;
        }

        var questions = new WhatIf(site, analysis, twin);
        if (questions.AsIs is not { DeliveredM3PerS: { Value: > 0 } delivered, WasteM3PerS: { Value: > 0 } waste, Efficiency: { } efficiency })
        {
            return trial;
        }

        double more = delivered.Value / trial.DeliveredM3PerS!.Value.Value;
        double better = efficiency.Value / trial.Efficiency!.Value.Value;
        return trial with
        {
            DeliveredM3PerS = delivered,
            WasteM3PerS = waste,
            Efficiency = efficiency,
            Stretches = [.. trial.Stretches.Select(s => s with { DeliveredM3PerS = more * s.DeliveredM3PerS, Efficiency = better * s.Efficiency })],
            HasTwin = true,
            Twin = session.Twin is null && KnobChange.Of(site, session.Knob, trial.Setting) is { } change
                ? Curve(session.Knob, questions, change, delivered.Value / waste.Value, cancellation)
                : null,
        };
    }

    private static TwinCurve Curve(
        Knob knob, WhatIf questions, Func<double, RamChange> change, double deliveredOverWaste, CancellationToken cancellation) =>
        new([.. Enumerable.Range(0, Points).Select(i =>
        {
            cancellation.ThrowIfCancellationRequested();
            double at = knob.Lowest + (knob.Span * i / (Points - 1));
            return Point(at, questions.RatiosOf(change(at)), deliveredOverWaste);
        })]);

    private static TwinCurvePoint Point(double setting, (Ratios Twin, IReadOnlyList<Ratios> Others)? told, double deliveredOverWaste)
    {
        LogRatios Of(Ratios r)
        {
            // D'Aubuisson's efficiency goes as q/(q + w); the heads are the same.
            double after = deliveredOverWaste * r.Delivered / r.Waste;
            return new LogRatios(Math.Log(r.Delivered), Math.Log(after / (1 + after) * (1 + deliveredOverWaste) / deliveredOverWaste), Math.Log(r.Peak));
        }

        return told is { } ratios
            ? new TwinCurvePoint(setting, Of(ratios.Twin), [.. ratios.Others.Select(Of)])
            : new TwinCurvePoint(setting, null, []);
    }
}
