namespace Clackbeat.Season.Store;

/// <summary>Instants as the store keeps them: microseconds since 1970-01-01 UTC, which no time zone or summer time moves.</summary>
internal static class StoreTime
{
    /// <summary>To the store.</summary>
    public static long Of(DateTimeOffset time) => (time.UtcTicks - DateTimeOffset.UnixEpoch.UtcTicks) / TimeSpan.TicksPerMicrosecond;

    /// <summary>From the store.</summary>
    public static DateTimeOffset From(long microseconds) =>
        DateTimeOffset.UnixEpoch.AddTicks(microseconds * TimeSpan.TicksPerMicrosecond);
}
