using Clackbeat.Season.Store;

namespace Clackbeat.Season.Trend;

/// <summary>Days of the calendar as stretches of time.</summary>
public static class CalendarDays
{
    /// <summary>The stretch from the beginning of a day to the end of another.</summary>
    /// <param name="first">First day.</param>
    /// <param name="last">Last day, included.</param>
    /// <param name="zone">Where the days begin.</param>
    public static TimeSpanUtc Span(DateOnly first, DateOnly last, TimeZoneInfo zone) => new(DayFinder.StartOf(first, zone), DayFinder.StartOf(last.AddDays(1), zone));
}
