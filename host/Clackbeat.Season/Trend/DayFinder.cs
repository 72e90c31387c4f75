namespace Clackbeat.Season.Trend;

/// <summary>Finds the calendar day of instants that come in order; asks the time zone once a day only, which is slow.</summary>
/// <param name="zone">Where the days begin.</param>
internal sealed class DayFinder(TimeZoneInfo zone)
{
    private DateOnly _day;
    private DateTimeOffset _from = DateTimeOffset.MaxValue;
    private DateTimeOffset _to = DateTimeOffset.MinValue;

    /// <summary>The day of an instant, and the instant it ends.</summary>
    public (DateOnly Day, DateTimeOffset End) Of(DateTimeOffset time)
    {
        if (time < _from || time >= _to)
        {
            _day = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(time, zone).DateTime);
            _from = StartOf(_day, zone);
            _to = StartOf(_day.AddDays(1), zone);
        }

        return (_day, _to);
    }

    /// <summary>The instant at which a day begins.</summary>
    public static DateTimeOffset StartOf(DateOnly day, TimeZoneInfo zone)
    {
        var local = day.ToDateTime(TimeOnly.MinValue);

        // Where clocks are put forward at midnight, the day begins at the first time there is.
        while (zone.IsInvalidTime(local))
        {
            local = local.AddMinutes(15);
        }

        return new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();
    }
}
