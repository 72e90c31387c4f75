namespace Clackbeat.Season.Schedule;

/// <summary>
/// The instants at which bursts are due: whole multiples of the period since 1970-01-01 UTC, so every quarter of an hour
/// falls on the clock's quarters, in any zone that is whole quarters from UTC, and summer time moves nothing.
/// </summary>
public static class BurstClock
{
    /// <summary>The first instant behind now at which a burst is due.</summary>
    /// <param name="nowUtc">Now.</param>
    /// <param name="every">The period; above zero.</param>
    public static DateTimeOffset Next(DateTimeOffset nowUtc, TimeSpan every)
    {
        long since = nowUtc.UtcTicks - DateTimeOffset.UnixEpoch.UtcTicks;
        long periods = Math.DivRem(since, every.Ticks).Quotient;
        return DateTimeOffset.UnixEpoch.AddTicks((periods + 1) * every.Ticks);
    }
}

/// <summary>
/// Whether a calendar can be right. A small computer without a clock chip starts in 1970, or when its system was built, and
/// hears of the true date once it has a network.
/// </summary>
public static class CalendarSense
{
    // This program is younger.
    private static readonly DateTimeOffset Earliest = new(2025, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>False for times before this program was written.</summary>
    /// <param name="utc">What a calendar says.</param>
    public static bool CanBe(DateTimeOffset utc) => utc >= Earliest;
}

/// <summary>
/// Notices that the calendar was set while time ran on: it compares the calendar with the machine's own unbroken clock.
/// </summary>
/// <param name="time">Both clocks.</param>
public sealed class StepWatch(TimeProvider time)
{
    // Time services steer by 500 parts per million at most, 30 ms a minute; whoever sets a clock moves it further.
    private static readonly TimeSpan LeastStep = TimeSpan.FromSeconds(2);

    private DateTimeOffset _utc = time.GetUtcNow();
    private long _stamp = time.GetTimestamp();

    /// <summary>
    /// By how much the calendar was moved since the last look, forward positive; null when it wasn't. A computer that slept
    /// shows as a step forward, for its unbroken clock stood.
    /// </summary>
    public TimeSpan? Look()
    {
        (DateTimeOffset utc, long stamp) = (time.GetUtcNow(), time.GetTimestamp());
        TimeSpan step = (utc - _utc) - time.GetElapsedTime(_stamp, stamp);
        (_utc, _stamp) = (utc, stamp);
        return step.Duration() >= LeastStep ? step : null;
    }
}
