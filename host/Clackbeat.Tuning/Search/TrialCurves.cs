using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Search;

/// <summary>The curves through the working trials: what is aimed at, the peak, and the delivered flow, all as logarithms.</summary>
internal sealed record TrialCurves(GaussianProcess Score, GaussianProcess Peak, GaussianProcess Delivered)
{
    public static TrialCurves Through(TuningSession session, Trial[] working)
    {
        return new TrialCurves(
            TuningCurve.Through(session.Knob, working, session.Score, session.Score, PriorCurve.OfAim(session)),
            TuningCurve.Through(session.Knob, working, t => Math.Log(t.HighestPeakPa!.Value), s => Math.Log(s.PeakPa), PriorCurve.Of(session, r => r.Peak)),
            TuningCurve.Through(session.Knob, working, t => Math.Log(t.DeliveredM3PerS!.Value.Value), s => Math.Log(s.DeliveredM3PerS), PriorCurve.Of(session, r => r.Delivered)))
        {
            Repeats = Repeatability.Of(working, session.Score),
            PeaksTried = [.. working.Select(t => (session.Knob.Share(t.Setting), Math.Log(t.HighestPeakPa!.Value))).OrderBy(p => p.Item1)],
        };
    }

    // 95 % one-sided.
    private const double Sure = 1.645;

    /// <summary>How well what is aimed at repeats.</summary>
    public Repeatability Repeats { get; private init; }

    private IReadOnlyList<(double Share, double LogPeak)> PeaksTried { get; init; } = [];

    public bool StaysWithin(double share, double allowedPa)
    {
        (double mean, double deviation) = Peak.At(share);
        return Math.Max(mean, Straight(share)) + (Sure * deviation) <= Math.Log(allowedPa);
    }

    /// <summary>
    /// Beyond the trials the curve bends back to its mean, and a rising peak would be taken too low: there it is no lower
    /// than the straight line through the outermost two.
    /// </summary>
    private double Straight(double share)
    {
        if (PeaksTried.Count < 2 || (share >= PeaksTried[0].Share && share <= PeaksTried[^1].Share))
        {
            return double.NegativeInfinity;
        }

        bool below = share < PeaksTried[0].Share;
        (double Share, double LogPeak) outer = below ? PeaksTried[0] : PeaksTried[^1];
        (double Share, double LogPeak) inner = below ? PeaksTried[1] : PeaksTried[^2];
        double slope = (outer.LogPeak - inner.LogPeak) / Math.Max(1e-6, Math.Abs(outer.Share - inner.Share));
        return outer.LogPeak + (slope * Math.Abs(share - outer.Share));
    }

    public bool Enough(TuningSession session, double share) =>
        session.Aim != TuningAim.GentlestPeak || Delivered.At(share).Mean >= Math.Log(session.EnoughOrHalfM3PerS);
}
