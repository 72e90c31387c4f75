using Clackbeat.Signal.Beats;
using Clackbeat.Site.Facts;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// A step in the interval: from one beat to the next the ram goes at another rate and stays there, as when a lock nut slips or a spring
/// breaks. Wear and a sinking level change it little by little; that is no step.
/// </summary>
internal static class IntervalStep
{
    private const int Side = 8;
    private const double LeastShare = 0.03;

    // Standard deviations of single intervals on either side.
    private const double LeastDeviations = 5;

    // The eight beats before those next to the step must lie as near to them as this, of the step.
    private const double Level = 0.25;

    /// <summary>The step; null where the record shows none.</summary>
    /// <param name="beats">Whole beats in order.</param>
    /// <param name="startS">First sample of the record, in the beats' own time [s].</param>
    public static Fact? Find(IReadOnlyList<Beat> beats, double startS)
    {
        double[] intervals = [.. beats.Select(b => b.IntervalS)];
        (int at, double before, double after) = Largest(intervals);
        if (at < 0 || !IsStep(intervals, at, before, after))
        {
            return null;
        }

        // Medians of eight may cut some beats off the place: it is where the intervals cross the middle between both levels.
        double middle = 0.5 * (before + after);
        int first = Enumerable.Range(at - (Side / 2), Side).First(i => (intervals[i] - middle) * (after - before) > 0);
        return Fact.Of(
            "interval-step",
            ("at_s", beats[first].ClosureS - startS), ("before_s", before), ("after_s", after), ("change_share", Math.Abs(after / before - 1)));
    }

    private static (int At, double Before, double After) Largest(double[] intervals)
    {
        (int At, double Before, double After) largest = (-1, 0, 0);
        for (int at = Side; at <= intervals.Length - Side; at++)
        {
            double before = intervals[(at - Side)..at].Median();
            double after = intervals[at..(at + Side)].Median();
            if (Math.Abs(after - before) > Math.Abs(largest.After - largest.Before))
            {
                largest = (at, before, after);
            }
        }

        return largest;
    }

    private static bool IsStep(double[] intervals, int at, double before, double after)
    {
        double step = Math.Abs(after - before);
        double deviation = Math.Max(Deviation(intervals[..at]), Deviation(intervals[at..]));
        return step >= LeastShare * before && step >= LeastDeviations * deviation
            && IsLevel(intervals[Math.Max(0, at - (2 * Side))..(at - Side)], before, step)
            && IsLevel(intervals[(at + Side)..Math.Min(intervals.Length, at + (2 * Side))], after, step);
    }

    // From quarter to quarter, as a normal distribution would have them: odd beats don't count.
    private static double Deviation(double[] intervals) => intervals.InterquartileRange() / 1.35;

    private static bool IsLevel(double[] further, double level, double step) =>
        further.Length < Side / 2 || Math.Abs(further.Median() - level) < Level * step;
}
