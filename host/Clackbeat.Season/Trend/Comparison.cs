using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Season.Trend;

/// <summary>How a figure differs after a day from before it.</summary>
/// <param name="Before">Median before, brought to the day itself by the drift that ran on both sides.</param>
/// <param name="After">The same after: <paramref name="Before"/> and the shift, so that both tell of one change.</param>
/// <param name="Shift">What the day brought: after less before, less what the drift that ran on both sides brought meanwhile.</param>
/// <param name="Low">Lower end of its 95 % interval.</param>
/// <param name="High">Upper end.</param>
/// <param name="DaysBefore">Days it rests on.</param>
/// <param name="DaysAfter">Days it rests on.</param>
public sealed record Comparison(double Before, double After, double Shift, double Low, double High, int DaysBefore, int DaysAfter)
{
    private const int LeastDays = 5;

    /// <summary>Zero lies outside the interval.</summary>
    public bool IsCertain => Low > 0 || High < 0;

    /// <summary>True where <see cref="Before"/> is an upper bound.</summary>
    public bool BeforeIsUpperBound { get; init; }

    /// <summary>True where <see cref="After"/> is an upper bound.</summary>
    public bool AfterIsUpperBound { get; init; }

    /// <summary>True where a bound stands against a figure: their difference tells nothing of the ram.</summary>
    public bool MixesBounds => BeforeIsUpperBound != AfterIsUpperBound;

    /// <summary>Compares the days before with those after; the day itself belongs to neither. Null under five on a side.</summary>
    /// <param name="days">The days, oldest first.</param>
    /// <param name="at">The day.</param>
    /// <param name="others">Days on which something else was done: what lies beyond them belongs to that.</param>
    /// <param name="reach">Days to look at on each side.</param>
    /// <remarks>
    /// The shift of Hodges and Lehmann with the interval of the rank-sum test (Hollander, Wolfe and Chicken, Nonparametric
    /// Statistical Methods, 3rd ed. (2014) §4.2–4.3, large samples), its variance widened for days that are alike. Wear goes on
    /// whatever is done: the median slope of the pairs within each side (Sen, as in <see cref="TheilSen"/>) is taken out first, and
    /// its interval over the time between the sides' middles widens the shift's.
    /// </remarks>
    public static Comparison? Around(IReadOnlyList<DayValue> days, DateOnly at, IReadOnlyList<DateOnly>? others = null, int reach = 30)
    {
        DateOnly from = (others ?? []).Where(o => o < at).Append(at.AddDays(-reach - 1)).Max();
        DateOnly to = (others ?? []).Where(o => o > at).Append(at.AddDays(reach + 1)).Min();
        DayValue[] before = [.. days.Where(d => d.Day < at && d.Day > from)];
        DayValue[] after = [.. days.Where(d => d.Day > at && d.Day < to)];
        if (before.Length < LeastDays || after.Length < LeastDays)
        {
            return null;
        }

        (double drift, double driftHalf) = Drift(before, after);
        double[] levelBefore = [.. before.Select(d => d.Value - (drift * (d.X - at.DayNumber)))];
        double[] levelAfter = [.. after.Select(d => d.Value - (drift * (d.X - at.DayNumber)))];
        return Of(before, after, levelBefore, levelAfter, driftHalf * (after.Average(d => d.X) - before.Average(d => d.X)));
    }

    /// <summary>Compares two periods as they are: nothing is taken out for what may have drifted between them. Null under five days in one.</summary>
    /// <param name="before">Days of the one.</param>
    /// <param name="after">Days of the other.</param>
    public static Comparison? Between(IReadOnlyList<DayValue> before, IReadOnlyList<DayValue> after) => before.Count < LeastDays || after.Count < LeastDays
        ? null
        : Of(before, after, [.. before.Select(d => d.Value)], [.. after.Select(d => d.Value)], 0);

    private static Comparison Of(IReadOnlyList<DayValue> before, IReadOnlyList<DayValue> after, double[] levelBefore, double[] levelAfter, double byDrift)
    {
        double[] differences = [.. levelAfter.SelectMany(a => levelBefore.Select(b => a - b)).Order()];
        double product = before.Count * after.Count;
        double inflation = Inflation(levelBefore, levelAfter);
        double half = Quantile(before.Count + after.Count, inflation) * Math.Sqrt(inflation * product * (before.Count + after.Count + 1) / 12);
        int rank = Math.Max(0, (int)Math.Floor((product / 2) - half) - 1);
        double shift = SortedArrayStatistics.Median(differences);
        return new Comparison(
            levelBefore.Median(), levelBefore.Median() + shift, shift,
            shift - Both(shift - differences[rank], byDrift), shift + Both(differences[^(rank + 1)] - shift, byDrift), before.Count, after.Count)
        {
            BeforeIsUpperBound = FigureTrend.AreBounds(before),
            AfterIsUpperBound = FigureTrend.AreBounds(after),
        };
    }

    private static double Both(double ofShift, double ofDrift) => Math.Sqrt((ofShift * ofShift) + (ofDrift * ofDrift));

    // The slope that both sides share, and half its 95 % interval.
    private static (double Slope, double Half) Drift(DayValue[] before, DayValue[] after)
    {
        double[] slopes = [.. Slopes(before).Concat(Slopes(after)).Order()];
        double slope = SortedArrayStatistics.Median(slopes);
        double[] Rests(DayValue[] side) => [.. side.Select(d => d.Value - (slope * d.X))];
        double inflation = Inflation(Rests(before), Rests(after));
        double half = Quantile(before.Length + after.Length, inflation) * Math.Sqrt(inflation * (VarianceOfS(before.Length) + VarianceOfS(after.Length)));
        int low = Math.Max(0, (int)Math.Round((slopes.Length - half) / 2) - 1);
        int high = Math.Min(slopes.Length - 1, (int)Math.Round((slopes.Length + half) / 2));
        return (slope, (slopes[high] - slopes[low]) / 2);
    }

    // Days that are alike count for fewer; two middles and a slope were taken from them.
    private static double Quantile(int days, double inflation) => StudentT.InvCDF(0, 1, Math.Max(2, (days / inflation) - 3), 0.975);

    private static double VarianceOfS(double n) => n * (n - 1) * ((2 * n) + 5) / 18;

    private static IEnumerable<double> Slopes(DayValue[] side)
    {
        for (int i = 0; i < side.Length; i++)
        {
            for (int j = i + 1; j < side.Length; j++)
            {
                yield return (side[j].Value - side[i].Value) / (side[j].X - side[i].X);
            }
        }
    }

    private static double Inflation(double[] before, double[] after)
    {
        (double middleBefore, double middleAfter) = (before.Median(), after.Median());
        return SerialCorrelation.Inflation([.. before.Select(b => b - middleBefore), .. after.Select(a => a - middleAfter)]);
    }
}
