using Clackbeat.Tuning.Trials;
using MathNet.Numerics.Distributions;

namespace Clackbeat.Tuning.Search;

/// <summary>Two trials beside each other.</summary>
/// <param name="First">Number of the first trial, from 0.</param>
/// <param name="Second">Number of the second trial.</param>
/// <param name="Share">How much better the second is for the aim, as a share of the first.</param>
/// <param name="Chance">Chance of such a difference, or a larger one, between trials of one setting; corrected for the number of pairs.</param>
/// <param name="Differ">Whether they really differ, at five chances in a hundred for all pairs together.</param>
public readonly record struct TrialPair(int First, int Second, double Share, double Chance, bool Differ);

/// <summary>
/// Which trials really differ: Student's t with the scatter pooled over all trials, and Holm's correction for looking at
/// many pairs (<see cref="Holm"/>). What is the same in every trial of a session (bore, length, span of
/// the sensor) cancels out and is left out.
/// </summary>
public static class TrialDifferences
{
    private const double Level = 0.05;

    /// <summary>All pairs of working trials; none when nothing was repeated, since then there is no scatter to judge by.</summary>
    public static IReadOnlyList<TrialPair> Of(TuningSession session)
    {
        ArgumentNullException.ThrowIfNull(session);
        var repeats = Repeatability.Of(session.Working, session.Score);
        if (repeats.Freedom == 0)
        {
            return [];
        }

        int[] working = [.. Enumerable.Range(0, session.Trials.Count).Where(i => session.Trials[i].Works)];
        var pairs = new List<TrialPair>();
        for (int i = 0; i < working.Length; i++)
        {
            for (int j = i + 1; j < working.Length; j++)
            {
                pairs.Add(Pair(session, repeats, working[i], working[j]));
            }
        }

        double[] chances = Holm.Adjust([.. pairs.Select(p => p.Chance)]);
        return [.. pairs.Select((p, i) => p with { Chance = chances[i], Differ = chances[i] < Level })];
    }

    private static TrialPair Pair(TuningSession session, Repeatability repeats, int first, int second)
    {
        (Trial a, Trial b) = (session.Trials[first], session.Trials[second]);
        double apart = session.Score(b) - session.Score(a);
        double uncertainty = Math.Sqrt(Math.Pow(repeats.Of(a), 2) + Math.Pow(repeats.Of(b), 2));
        double t = uncertainty > 0 ? Math.Abs(apart) / uncertainty : double.PositiveInfinity;
        double chance = double.IsFinite(t) ? 2 * (1 - StudentT.CDF(0, 1, repeats.Freedom, t)) : 0;
        return new TrialPair(first, second, Math.Exp(apart) - 1, chance, false);
    }
}
