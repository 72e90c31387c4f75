using Clackbeat.Season.Store;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Season.Trend;

/// <summary>A day of a figure.</summary>
/// <param name="Day">Calendar day in the zone that was asked for.</param>
/// <param name="Value">Median of the day's bursts.</param>
/// <param name="Low">Lower quartile.</param>
/// <param name="High">Upper quartile.</param>
/// <param name="Bursts">How many bursts it rests on.</param>
public readonly record struct DayValue(DateOnly Day, double Value, double Low, double High, int Bursts)
{
    /// <summary>
    /// True where half of the day's bursts or more give an upper bound: the day's median is one then. Fewer can't carry the median
    /// out of the range of the bursts that give a figure (its breakdown point is one half: P. J. Huber, Robust Statistics, 1981, §1.4).
    /// </summary>
    public bool IsUpperBound { get; init; }

    /// <summary>Days since 0001-01-01: the time axis of every trend.</summary>
    public double X => Day.DayNumber;
}

/// <summary>
/// Bursts to days. A day's median hides a burst that went wrong and evens out the hours; all trend methods work on days,
/// so ten years are 3650 points and not 350,000.
/// </summary>
public static class DailySeries
{
    /// <summary>The day of some bursts.</summary>
    /// <param name="day">The day.</param>
    /// <param name="bursts">Value of each burst, and whether it is an upper bound; one at least.</param>
    public static DayValue Day(DateOnly day, IReadOnlyCollection<(double Value, bool IsUpperBound)> bursts)
    {
        double[] sorted = [.. bursts.Select(b => b.Value).Order()];
        return new DayValue(
            day, SortedArrayStatistics.Median(sorted), SortedArrayStatistics.LowerQuartile(sorted), SortedArrayStatistics.UpperQuartile(sorted), sorted.Length)
        {
            IsUpperBound = 2 * bursts.Count(b => b.IsUpperBound) >= bursts.Count,
        };
    }

    /// <summary>Days with at least one burst, oldest first; days without stay out.</summary>
    /// <param name="points">A series, oldest first.</param>
    /// <param name="zone">Where the days begin; a day of changing clocks is one day.</param>
    public static IReadOnlyList<DayValue> Of(IReadOnlyList<SeasonPoint> points, TimeZoneInfo zone)
    {
        var days = new List<DayValue>();
        var values = new List<(double, bool)>();
        var calendar = new DayFinder(zone);
        for (int i = 0; i < points.Count; i++)
        {
            values.Add((points[i].Value, points[i].IsUpperBound));
            (DateOnly day, DateTimeOffset end) = calendar.Of(points[i].AtUtc);
            if (i + 1 == points.Count || points[i + 1].AtUtc >= end)
            {
                days.Add(Day(day, values));
                values.Clear();
            }
        }

        return days;
    }
}
