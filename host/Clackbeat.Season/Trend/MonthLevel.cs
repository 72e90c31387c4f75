namespace Clackbeat.Season.Trend;

/// <summary>A calendar month's usual level over all years.</summary>
/// <param name="Month">1 to 12.</param>
/// <param name="Value">Median of its days.</param>
/// <param name="Low">Lower quartile.</param>
/// <param name="High">Upper quartile.</param>
/// <param name="Years">Years it rests on; with one, season and drift can't be told apart.</param>
public readonly record struct MonthLevel(int Month, double Value, double Low, double High, int Years)
{
    /// <summary>Levels of the months that have days, January first.</summary>
    /// <param name="days">The days.</param>
    public static IReadOnlyList<MonthLevel> Of(IReadOnlyList<DayValue> days) =>
    [
        .. days.GroupBy(d => d.Day.Month).OrderBy(g => g.Key).Select(g =>
        {
            double[] sorted = [.. g.Select(d => d.Value).Order()];
            return new MonthLevel(
                g.Key,
                MathNet.Numerics.Statistics.SortedArrayStatistics.Median(sorted),
                MathNet.Numerics.Statistics.SortedArrayStatistics.LowerQuartile(sorted),
                MathNet.Numerics.Statistics.SortedArrayStatistics.UpperQuartile(sorted),
                g.Select(d => d.Day.Year).Distinct().Count());
        }),
    ];
}
