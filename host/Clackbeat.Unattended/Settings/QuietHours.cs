using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace Clackbeat.Unattended.Settings;

/// <summary>Hours of the night in which only what is urgent is told.</summary>
/// <param name="From">Begin, by the clock on the wall.</param>
/// <param name="To">End; before <paramref name="From"/> for hours over midnight.</param>
/// <param name="Zone">Whose clock.</param>
public sealed record QuietHours(TimeOnly From, TimeOnly To, TimeZoneInfo Zone)
{
    /// <summary>Reads hours such as "22:00 to 06:30".</summary>
    /// <param name="text">The text.</param>
    /// <param name="zone">Whose clock.</param>
    /// <param name="hours">The hours.</param>
    public static bool TryParse(string text, TimeZoneInfo zone, [NotNullWhen(true)] out QuietHours? hours)
    {
        hours = text.Split(" to ") is [var from, var to]
            && TimeOnly.TryParseExact(from.Trim(), "H:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out TimeOnly begin)
            && TimeOnly.TryParseExact(to.Trim(), "H:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out TimeOnly end) && begin != end
            ? new QuietHours(begin, end, zone)
            : null;
        return hours is not null;
    }

    /// <summary>Whether it is quiet.</summary>
    /// <param name="nowUtc">Now.</param>
    public bool Contains(DateTimeOffset nowUtc) => WallTime(nowUtc).IsBetween(From, To);

    /// <summary>How long ago the last quiet hours ended.</summary>
    /// <param name="nowUtc">Now, outside of quiet hours.</param>
    public TimeSpan SinceEnd(DateTimeOffset nowUtc) => WallTime(nowUtc) - To;

    private TimeOnly WallTime(DateTimeOffset nowUtc) => TimeOnly.FromDateTime(TimeZoneInfo.ConvertTime(nowUtc, Zone).DateTime);
}
