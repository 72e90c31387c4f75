using MathNet.Numerics.Statistics;

namespace Clackbeat.Signal.Beats;

/// <summary>
/// The part of a record in which the ram beats as it goes on beating: without its start-up, and without the last beats before a stop.
/// The intervals are cut where their level changes, by Pettitt's rank test on one piece after another (Applied Statistics 28 (1979)
/// 126–135, doi:10.2307/2346729): it asks nothing of their distribution, and a few odd beats don't move it. The longest piece is the
/// steady one, with the neighbours whose median lies among its own intervals: a drift within the ram's usual scatter cuts nothing off.
/// </summary>
internal static class SteadyPart
{
    // The usual level of such tests; Pettitt's approximation of p is good to two digits there.
    private const double Significance = 0.01;

    // With fewer values p can't fall under that level: 2 exp(−6 K²/(n³ + n²)) with the largest K = n²/4 gives 0.16 at 7 and 0.07 at 9.
    private const int LeastIntervals = 9;

    // The middle nine tenths of the intervals, as everywhere where a rhythm's range is given.
    private const double Low = 0.05;
    private const double High = 0.95;

    /// <summary>The beats of the steady part; all of them where none is steady for at least half the time.</summary>
    /// <param name="beats">Whole beats in order.</param>
    public static IReadOnlyList<Beat> Of(IReadOnlyList<Beat> beats)
    {
        double[] intervals = [.. beats.Select(b => b.IntervalS)];
        (int from, int end) = Find(intervals);
        return intervals.AsSpan()[from..end].ToArray().Sum() < 0.5 * intervals.Sum() ? beats : [.. beats.Take(end).Skip(from)];
    }

    /// <summary>First interval of the steady part, and the one after its last.</summary>
    internal static (int From, int End) Find(double[] intervals)
    {
        var pieces = new List<(int From, int End)>();
        Cut(intervals, 0, intervals.Length, pieces);
        int first = pieces.Count == 0 ? 0 : Enumerable.Range(0, pieces.Count).MaxBy(i => Length(intervals, pieces[i]));
        int last = first;
        if (pieces.Count == 0)
        {
            return (0, 0);
        }

        while (true)
        {
            (int from, int end) = (pieces[first].From, pieces[last].End);
            if (first > 0 && IsAmong(intervals, pieces[first - 1], from, end))
            {
                first--;
            }
            else if (last < pieces.Count - 1 && IsAmong(intervals, pieces[last + 1], from, end))
            {
                last++;
            }
            else
            {
                return (from, end);
            }
        }
    }

    private static void Cut(double[] intervals, int from, int end, List<(int From, int End)> pieces)
    {
        if (ChangeIn(intervals[from..end]) is { } at)
        {
            Cut(intervals, from, from + at, pieces);
            Cut(intervals, from + at, end, pieces);
        }
        else if (end > from)
        {
            pieces.Add((from, end));
        }
    }

    /// <summary>Where the level changes; null where it doesn't, as far as the test can tell.</summary>
    private static int? ChangeIn(double[] values)
    {
        double n = values.Length;
        if (n < LeastIntervals)
        {
            return null;
        }

        double[] ranks = values.Ranks(RankDefinition.Average);
        (double sum, double strongest, int at) = (0, 0, 0);
        for (int t = 1; t < values.Length; t++)
        {
            sum += ranks[t - 1];
            double statistic = Math.Abs((2 * sum) - (t * (n + 1)));
            (strongest, at) = statistic > strongest ? (statistic, t) : (strongest, at);
        }

        double p = 2 * Math.Exp(-6 * strongest * strongest / ((n * n * n) + (n * n)));
        return p < Significance ? at : null;
    }

    private static double Length(double[] intervals, (int From, int End) piece) => intervals[piece.From..piece.End].Sum();

    private static bool IsAmong(double[] intervals, (int From, int End) piece, int from, int end)
    {
        double[] own = [.. intervals[from..end].Order()];
        double median = intervals[piece.From..piece.End].Median();
        return median >= SortedArrayStatistics.QuantileCustom(own, Low, QuantileDefinition.R7)
            && median <= SortedArrayStatistics.QuantileCustom(own, High, QuantileDefinition.R7);
    }
}
