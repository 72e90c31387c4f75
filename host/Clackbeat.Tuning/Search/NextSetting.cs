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

    // A twin has looked around already.
    private const int LookAroundByTwin = 1;
    private const double LeastGain = 0.005;

    /// <summary>What to do after the trials of a session.</summary>
    /// <remarks>The search goes by the best of the curve; which trial to keep to is the choice of <see cref="BestTrial"/>.</remarks>
    /// <param name="session">The session.</param>
    /// <param name="now">Setting as it is before the first trial, in the knob's unit; null for what the session says, or the middle of the range.</param>
    public static Advice Of(TuningSession session, double? now = null)
    {
        ArgumentNullException.ThrowIfNull(session);
        Advice advice = Search(session, now);
        return advice.Best is { } top ? BestTrial.Chosen(session, top, advice) : advice;
    }

    private static Advice Search(TuningSession session, double? now)
    {
        Knob knob = session.Knob;
        if (session.Trials.Count == 0)
        {
            // As it is, whether or not that falls on a step.
            double first = now ?? session.Now ?? knob.Nearest(knob.Lowest + (0.5 * knob.Span));
            return new Advice(Math.Clamp(first, knob.Lowest, knob.Highest), AdviceReason.AsItIs, null, 0, null);
        }

        Trial[] working = [.. session.Working];
        if (working.Length == 0)
        {
            return Widest(session);
        }

        var curves = TrialCurves.Through(session, working);
        Trial? best = Best(session, curves);
        double uncertainty = best is null ? 0 : curves.Score.At(knob.Share(best.Setting)).Deviation;
        if (session.Trials.Count >= TuningSession.MostTrials)
        {
            return new Advice(null, AdviceReason.AllTrialsMade, best, uncertainty, null);
        }

        double[] open = [.. Candidates(session, working, best, curves)];
        if (open.Length == 0)
        {
            return new Advice(null, AdviceReason.NoneLeft, best, uncertainty, null);
        }

        if (best is null)
        {
            return WayBack(knob, working, open, curves);
        }

        double[] telling = session.Trials.Count < LookAround ? open : [.. open.Where(x => CanBeTold(knob, working, x, curves))];
        return telling.Length == 0
            ? new Advice(null, AdviceReason.NoneToTell, best, uncertainty, null)
            : Among(session, telling, best, uncertainty, curves);
    }

    /// <summary>Settings that may not be tried after the trials so far; none before the first that works.</summary>
    public static IReadOnlyList<BarredRange> Barred(TuningSession session)
    {
        ArgumentNullException.ThrowIfNull(session);
        Trial[] working = [.. session.Working];
        if (working.Length == 0)
        {
            return [];
        }

        var curves = TrialCurves.Through(session, working);
        var fence = new Fence(session, working, Best(session, curves), curves);
        Knob knob = session.Knob;
        List<BarredRange> barred = [];
        for (double share = 0; share < 1 - (0.5 * Grid); share += Grid)
        {
            BarredBy why = fence.At(share + (0.5 * Grid));
            (double from, double to) = (knob.Lowest + (share * knob.Span), knob.Lowest + ((share + Grid) * knob.Span));
            if (why != BarredBy.None && barred.Count > 0 && barred[^1].Why == why && Math.Abs(barred[^1].To - from) < 0.1 * Grid * knob.Span)
            {
                barred[^1] = barred[^1] with { To = to };
            }
            else if (why != BarredBy.None)
            {
                barred.Add(new BarredRange(from, to, why));
            }
        }

        return barred;
    }

    private static Trial? Best(TuningSession session, TrialCurves curves) =>
        session.Trials.Where(session.MayBeChosen).MaxBy(t => curves.Score.At(session.Knob.Share(t.Setting)).Mean);

    // Whether a trial there might differ from the one next to it by more than both repeat by. Everything twice its standard
    // uncertainty, as the ± everywhere.
    private static bool CanBeTold(Knob knob, Trial[] working, double share, TrialCurves curves)
    {
        Trial beside = working.MinBy(t => Math.Abs(knob.Share(t.Setting) - share))!;
        (double apart, double deviation) = curves.Score.Difference(knob.Share(beside.Setting), share);
        return Math.Abs(apart) + (2 * deviation) >= 2 * Math.Sqrt(2) * curves.Repeats.Of(beside);
    }

    // No trial may be kept: towards more water where the pipe bears some of them, else towards softer blows.
    private static Advice WayBack(Knob knob, Trial[] working, double[] open, TrialCurves curves) => working.Any(t => t.WithinRating)
        ? new Advice(Setting(knob, open.MaxBy(x => curves.Delivered.At(x).Mean + curves.Delivered.At(x).Deviation)), AdviceReason.MoreWater, null, 0, null)
        : new Advice(Setting(knob, open.MinBy(x => curves.Peak.At(x).Mean)), AdviceReason.LessHard, null, 0, null);

    private static Advice Among(TuningSession session, double[] open, Trial best, double uncertainty, TrialCurves curves)
    {
        Knob knob = session.Knob;
        int around = session.Twin is null ? LookAround : LookAroundByTwin;
        if (session.Trials.Count < around)
        {
            double farthest = open.MaxBy(x => curves.Score.At(x).Deviation);
            return new Advice(Setting(knob, farthest), AdviceReason.ThisSideFirst, best, uncertainty, null);
        }

        double level = curves.Score.At(knob.Share(best.Setting)).Mean;
        double place = open.MaxBy(x => Gain(curves.Score.At(x), level));
        double gain = Gain(curves.Score.At(place), level);
        return gain < LeastGain && session.Trials.Count > around
            ? new Advice(null, AdviceReason.NothingMore, best, uncertainty, null)
            : new Advice(Setting(knob, place), session.Trials.Count == around && session.Twin is not null ? AdviceReason.TwinExpectsMost : AdviceReason.PromisesMost, best, uncertainty, gain);
    }

    /// <summary>Expected improvement over a level.</summary>
    private static double Gain((double Mean, double Deviation) at, double level)
    {
        if (at.Deviation < 1e-9)
        {
            return Math.Max(0, at.Mean - level);
        }

        double z = (at.Mean - level) / at.Deviation;
        return ((at.Mean - level) * Normal.CDF(0, 1, z)) + (at.Deviation * Normal.PDF(0, 1, z));
    }

    private static IEnumerable<double> Candidates(TuningSession session, Trial[] working, Trial? best, TrialCurves curves)
    {
        Knob knob = session.Knob;
        var fence = new Fence(session, working, best, curves);
        double[] from = fence.Safe.Count > 0 ? [.. fence.Safe] : [.. working.Select(t => knob.Share(t.Setting))];
        // Never nearer to a trial than a step; a trial itself may lie between two steps.
        double apart = Math.Max(Apart, (1 - 1e-6) * knob.ProposedStep / knob.Span);
        double[] settings = [.. Enumerable.Range(0, (int)Math.Round(1 / Grid) + 1)
            .Select(i => knob.Share(knob.Nearest(knob.Lowest + (i * Grid * knob.Span)))).Distinct()];
        foreach (double share in settings)
        {
            bool isNear = from.Any(f => Math.Abs(f - share) <= LongestStride + 1e-9);
            bool isNew = session.Trials.All(t => Math.Abs(knob.Share(t.Setting) - share) >= apart);
            if (isNear && isNew && fence.At(share) == BarredBy.None && (best is null || curves.Enough(session, share)))
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
            ? new Advice(null, AdviceReason.NeverRan, null, 0, null)
            : new Advice(setting, AdviceReason.Elsewhere, null, 0, null);
    }

    private static double Setting(Knob knob, double share) => knob.Nearest(knob.Lowest + (share * knob.Span));
}
