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
    /// <summary>Days since 0001-01-01: the time axis of every trend.</summary>
    public double X => Day.DayNumber;
}

/// <summary>
/// Bursts to days. A day's median hides a burst that went wrong and evens out the hours; all trend methods work on days,
/// so ten years are 3650 points and not 350,000.
/// </summary>
public static class DailySeries
{
    /// <summary>Days with at least one burst, oldest first; days without stay out.</summary>
    /// <param name="points">A series, oldest first.</param>
    /// <param name="zone">Where the days begin; a day of changing clocks is one day.</param>
    public static IReadOnlyList<DayValue> Of(IReadOnlyList<SeasonPoint> points, TimeZoneInfo zone)
    {
        var days = new List<DayValue>();
        var values = new List<double>();
        var calendar = new DayFinder(zone);
        for (int i = 0; i < points.Count; i++)
        {
            values.Add(points[i].Value);
            (DateOnly day, DateTimeOffset end) = calendar.Of(points[i].AtUtc);
            if (i + 1 == points.Count || points[i + 1].AtUtc >= end)
            {
                double[] sorted = [.. values.Order()];
                days.Add(new DayValue(
                    day, SortedArrayStatistics.Median(sorted), SortedArrayStatistics.LowerQuartile(sorted), SortedArrayStatistics.UpperQuartile(sorted), sorted.Length));
                values.Clear();
            }
        }

        return days;
    }
}
