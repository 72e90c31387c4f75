using System.Globalization;

namespace Clackbeat.Commands;

/// <summary>Days and numbers as the tables of trend write them.</summary>
internal static class TrendText
{
    /// <summary>A day of a trend's time axis.</summary>
    public static string Day(double dayNumber) => Day(DateOnly.FromDayNumber((int)dayNumber));

    /// <summary>A day.</summary>
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A number to so many decimals.</summary>
    public static string Fixed(double value, int decimals) => value.ToString("F" + decimals, CultureInfo.InvariantCulture);
}
