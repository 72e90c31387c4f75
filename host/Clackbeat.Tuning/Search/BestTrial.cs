using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Search;

/// <summary>
/// Which trial to keep to. The best of the curve is one of several that can't be told apart; of these the one that wastes
/// least is named, where the waste itself can be told to be less, and the curve gives up next to nothing for it.
/// </summary>
internal static class BestTrial
{
    // Twice the standard uncertainty of the difference of two trials' means.
    private const double Sure = 2;

    // What a smaller waste may cost by the curve, as a share.
    private const double MostGivenUp = 0.01;

    /// <summary>The advice with the trial to keep to, its likes, and whether it lies at an end of the range.</summary>
    /// <param name="session">The session.</param>
    /// <param name="top">The best trial by the curve.</param>
    /// <param name="advice">The advice of the search.</param>
    public static Advice Chosen(TuningSession session, Trial top, Advice advice)
    {
        IReadOnlyList<TrialPair> pairs = TrialDifferences.Of(session);
        var repeats = Repeatability.Of(session.Working, session.Score);
        bool AreAlike(Trial a, Trial b)
        {
            (int i, int j) = (IndexOf(session, a), IndexOf(session, b));
            TrialPair? pair = pairs.Cast<TrialPair?>().FirstOrDefault(p => p is { } q && (q.First, q.Second) == (Math.Min(i, j), Math.Max(i, j)));
            return pair is { } judged ? !judged.Differ
                : Math.Abs(session.Score(a) - session.Score(b)) < Sure * Apart(repeats, a, b);
        }

        GaussianProcess curve = TrialCurves.Through(session, [.. session.Working]).Score;
        double GivenUp(Trial t) => curve.Difference(session.Knob.Share(t.Setting), session.Knob.Share(top.Setting)).Mean;
        var wasted = Repeatability.Of(session.Working, s => Math.Log(WasteOf(session, s)));
        Trial best = session.Trials
            .Where(t => !ReferenceEquals(t, top) && session.MayBeChosen(t) && t.WasteM3PerS is not null && AreAlike(t, top)
                && GivenUp(t) <= MostGivenUp)
            .OrderBy(t => t.WasteM3PerS!.Value.Value)
            .FirstOrDefault(t => top.WasteM3PerS is { } waste
                && Math.Log(waste.Value / t.WasteM3PerS!.Value.Value) > Sure * Apart(wasted, t, top)) ?? top;
        double near = 0.5 * session.Knob.ProposedStep;
        return advice with
        {
            Best = best,
            WastesLess = !ReferenceEquals(best, top),
            Alike = [.. session.Trials.Where(t => !ReferenceEquals(t, best) && session.MayBeChosen(t) && AreAlike(t, best))],
            BestAtEnd = session.Knob.Highest - best.Setting < near ? RangeEnd.Highest
                : best.Setting - session.Knob.Lowest < near ? RangeEnd.Lowest
                : RangeEnd.None,
        };
    }

    private static double Apart(Repeatability repeats, Trial a, Trial b) =>
        Math.Sqrt((repeats.Of(a) * repeats.Of(a)) + (repeats.Of(b) * repeats.Of(b)));

    private static int IndexOf(TuningSession session, Trial trial)
    {
        for (int i = 0; i < session.Trials.Count; i++)
        {
            if (ReferenceEquals(session.Trials[i], trial))
            {
                return i;
            }
        }

        return -1;
    }

    // D'Aubuisson's efficiency is q h / ((q + w) H): the ratio of heads is the same in all of a session, and gives w.
    private static double WasteOf(TuningSession session, Stretch stretch)
    {
        double heads = session.Working.Where(t => t.WasteM3PerS is not null).Select(t =>
            t.Efficiency!.Value.Value * (t.DeliveredM3PerS!.Value.Value + t.WasteM3PerS!.Value.Value) / t.DeliveredM3PerS.Value.Value)
            .DefaultIfEmpty(double.NaN).Average();
        double waste = stretch.DeliveredM3PerS * ((heads / stretch.Efficiency) - 1);
        return waste > 0 ? waste : double.NaN;
    }
}
