using MathNet.Numerics.Distributions;

namespace Clackbeat.Season.Trend;

/// <summary>How a figure differs after a day from before it.</summary>
/// <param name="Before">Median before.</param>
/// <param name="After">Median after.</param>
/// <param name="Shift">Median of all differences, after less before.</param>
/// <param name="Low">Lower end of its 95 % interval.</param>
/// <param name="High">Upper end.</param>
/// <param name="DaysBefore">Days it rests on.</param>
/// <param name="DaysAfter">Days it rests on.</param>
public sealed record Comparison(double Before, double After, double Shift, double Low, double High, int DaysBefore, int DaysAfter)
{
    /// <summary>Zero lies outside the interval.</summary>
    public bool IsCertain => Low > 0 || High < 0;

    /// <summary>Compares the days before with those after; the day itself belongs to neither. Null under five on a side.</summary>
    /// <param name="days">The days, oldest first.</param>
    /// <param name="at">The day.</param>
    /// <param name="others">Days on which something else was done: what lies beyond them belongs to that.</param>
    /// <param name="reach">Days to look at on each side.</param>
    /// <remarks>
    /// The shift of Hodges and Lehmann with the interval of the rank-sum test (Hollander, Wolfe and Chicken, Nonparametric
    /// Statistical Methods, 3rd ed. (2014) §4.2–4.3, large samples), its variance widened for days that are alike.
    /// </remarks>
    public static Comparison? Around(IReadOnlyList<DayValue> days, DateOnly at, IReadOnlyList<DateOnly>? others = null, int reach = 30)
    {
        DateOnly from = (others ?? []).Where(o => o < at).Append(at.AddDays(-reach - 1)).Max();
        DateOnly to = (others ?? []).Where(o => o > at).Append(at.AddDays(reach + 1)).Min();
        double[] before = [.. days.Where(d => d.Day < at && d.Day > from).Select(d => d.Value)];
        double[] after = [.. days.Where(d => d.Day > at && d.Day < to).Select(d => d.Value)];
        if (before.Length < 5 || after.Length < 5)
        {
            return null;
        }

        double[] differences = [.. after.SelectMany(a => before.Select(b => a - b)).Order()];
        (double middleBefore, double middleAfter) = (Median([.. before.Order()]), Median([.. after.Order()]));
        double inflation = SerialCorrelation.Inflation([.. before.Select(b => b - middleBefore), .. after.Select(a => a - middleAfter)]);
        double product = before.Length * after.Length;
        double half = Normal.InvCDF(0, 1, 0.975) * Math.Sqrt(inflation * product * (before.Length + after.Length + 1) / 12);
        int rank = Math.Max(0, (int)Math.Floor((product / 2) - half) - 1);
        return new Comparison(
            middleBefore, middleAfter, Median(differences), differences[rank], differences[^(rank + 1)], before.Length, after.Length);
    }

    private static double Median(double[] sorted) => MathNet.Numerics.Statistics.SortedArrayStatistics.Median(sorted);
}
