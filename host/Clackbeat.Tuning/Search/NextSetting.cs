using Clackbeat.Tuning.Trials;
using MathNet.Numerics.Distributions;

namespace Clackbeat.Tuning.Search;

/// <summary>
/// Proposes the setting to try next: the one of largest expected improvement (Jones, Schonlau &amp; Welch 1998,
/// doi:10.1023/A:1008306431147) on a Gaussian-process curve through the trials. The pipe is a hard limit: nothing is
/// proposed whose peak, its ± added, the curve through the peaks doesn't put under the allowable pressure with nineteen
/// chances in twenty; no stride is longer than three tenths of the range, and nothing lies beyond a setting that stopped the ram or went
/// over the rating.
/// </summary>
public static class NextSetting
{
    private const double LongestStride = 0.3;
    private const double Grid = 0.01;
    private const double Apart = 0.02;
    private const int LookAround = 3;
    private const double LeastGain = 0.005;

    // 95 % one-sided.
    private const double Sure = 1.645;

    /// <summary>What to do after the trials of a session.</summary>
    /// <param name="session">The session.</param>
    /// <param name="now">Setting as it is before the first trial, in the knob's unit; null for the middle of the range.</param>
    public static Advice Of(TuningSession session, double? now = null)
    {
        ArgumentNullException.ThrowIfNull(session);
        Knob knob = session.Knob;
        if (session.Trials.Count == 0)
        {
            double first = knob.Nearest(now ?? (knob.Lowest + (0.5 * knob.Span)));
            return new Advice(first, "Begin with the ram as it is, so that all else is measured against it.", null, 0, null);
        }

        Trial[] working = [.. session.Working];
        if (working.Length == 0)
        {
            return Widest(session);
        }

        Curves curves = Curves.Through(session, working);
        Trial? best = session.Trials.Where(session.MayBeChosen).MaxBy(t => curves.Score.At(knob.Share(t.Setting)).Mean);
        double spread = best is null ? 0 : curves.Score.At(knob.Share(best.Setting)).Spread;
        if (session.Trials.Count >= TuningSession.MostTrials)
        {
            return new Advice(null, $"{TuningSession.MostTrials} trials are made; more would bring little.", best, spread, null);
        }

        double[] open = [.. Candidates(session, working, best, curves)];
        if (open.Length == 0)
        {
            return new Advice(null, "No setting is left that may be tried within the pipe's rating and the settings that run.", best, spread, null);
        }

        if (best is null)
        {
            return working.Any(t => t.WithinRating)
                ? new Advice(Setting(knob, open.MaxBy(x => curves.Delivered.At(x).Mean + curves.Delivered.At(x).Spread)), "No trial delivers enough so far; this one should deliver more.", null, 0, null)
                : new Advice(Setting(knob, open.MinBy(x => curves.Peak.At(x).Mean)), "Every trial hits harder than the pipe bears; this one should hit less hard.", null, 0, null);
        }

        if (session.Trials.Count < LookAround)
        {
            double farthest = open.MaxBy(x => curves.Score.At(x).Spread);
            return new Advice(Setting(knob, farthest), "Look to this side first, where nothing is known yet.", best, spread, null);
        }

        double level = curves.Score.At(knob.Share(best.Setting)).Mean;
        double place = open.MaxBy(x => Gain(curves.Score.At(x), level));
        double gain = Gain(curves.Score.At(place), level);
        return gain < LeastGain && session.Trials.Count > LookAround
            ? new Advice(null, "No other setting promises half a per cent more.", best, spread, null)
            : new Advice(Setting(knob, place), "Of all settings that may be tried, this one promises most.", best, spread, gain);
    }

    /// <summary>Expected improvement over a level.</summary>
    private static double Gain((double Mean, double Spread) at, double level)
    {
        if (at.Spread < 1e-9)
        {
            return Math.Max(0, at.Mean - level);
        }

        double z = (at.Mean - level) / at.Spread;
        return ((at.Mean - level) * Normal.CDF(0, 1, z)) + (at.Spread * Normal.PDF(0, 1, z));
    }

    private static IEnumerable<double> Candidates(TuningSession session, Trial[] working, Trial? best, Curves curves)
    {
        Knob knob = session.Knob;
        double[] safe = [.. working.Where(t => t.WithinRating).Select(t => knob.Share(t.Setting))];
        double[] from = safe.Length > 0 ? safe : [.. working.Select(t => knob.Share(t.Setting))];
        double anchor = best is not null ? knob.Share(best.Setting) : from[0];
        double[] bad = safe.Length == 0 ? [] : [.. session.Trials.Where(t => !t.Works || !t.WithinRating).Select(t => knob.Share(t.Setting))];
        double lowest = bad.Where(b => b < anchor).DefaultIfEmpty(double.NegativeInfinity).Max();
        double highest = bad.Where(b => b > anchor).DefaultIfEmpty(double.PositiveInfinity).Min();
        double allowed = working.Select(t => t.AllowablePa ?? double.PositiveInfinity).Min();
        double apart = Math.Max(Apart, 0.5 * knob.Step / knob.Span);
        for (double x = 0; x <= 1 + (0.5 * Grid); x += Grid)
        {
            double share = knob.Share(knob.Nearest(knob.Lowest + (x * knob.Span)));
            bool reachable = share > lowest && share < highest && from.Any(f => Math.Abs(f - share) <= LongestStride + 1e-9);
            bool isNew = session.Trials.All(t => Math.Abs(knob.Share(t.Setting) - share) >= apart);
            bool bears = safe.Length == 0 || curves.Bears(share, allowed);
            if (reachable && isNew && bears && (best is null || curves.Enough(session, share)))
            {
                yield return share;
            }
        }
    }

    // Nothing ran yet: the middle of the widest stretch of the range that holds no trial.
    private static Advice Widest(TuningSession session)
    {
        Knob knob = session.Knob;
        double[] edges = [0, .. session.Trials.Select(t => knob.Share(t.Setting)).Order(), 1];
        int widest = Enumerable.Range(1, edges.Length - 1).MaxBy(i => edges[i] - edges[i - 1]);
        double setting = Setting(knob, 0.5 * (edges[widest] + edges[widest - 1]));
        return session.Trials.Count >= TuningSession.MostTrials
            ? new Advice(null, "At no setting the ram ran long enough. Look for what is wrong with it before tuning.", null, 0, null)
            : new Advice(setting, "The ram didn't run at the settings so far; try another part of the range.", null, 0, null);
    }

    private static double Setting(Knob knob, double share) => knob.Nearest(knob.Lowest + (share * knob.Span));

    /// <summary>The curves through the working trials: what is aimed at, the peak, and the delivered flow, all as logarithms.</summary>
    private sealed record Curves(GaussianProcess Score, GaussianProcess Peak, GaussianProcess Delivered)
    {
        public static Curves Through(TuningSession session, Trial[] working)
        {
            return new Curves(
                TuningCurve.Through(session.Knob, working, session.Score, session.Score),
                TuningCurve.Through(session.Knob, working, t => Math.Log(t.HighestPeakPa!.Value), s => Math.Log(s.PeakPa)),
                TuningCurve.Through(session.Knob, working, t => Math.Log(t.DeliveredM3PerS!.Value.Value), s => Math.Log(s.DeliveredM3PerS)))
            {
                PeaksTried = [.. working.Select(t => (session.Knob.Share(t.Setting), Math.Log(t.HighestPeakPa!.Value))).OrderBy(p => p.Item1)],
            };
        }

        private IReadOnlyList<(double Share, double LogPeak)> PeaksTried { get; init; } = [];

        public bool Bears(double share, double allowedPa)
        {
            (double mean, double spread) = Peak.At(share);
            return Math.Max(mean, Straight(share)) + (Sure * spread) <= Math.Log(allowedPa);
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
}
