using System.Globalization;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <summary>Days and months in words.</summary>
internal static class Dates
{
    /// <summary>A day, such as 7 May 2026.</summary>
    public static string Day(DateOnly day) => Phrases.Say("dates.day", ("day", day.Day), ("month", Name(day)), ("year", Year(day)));

    /// <summary>A month, such as May 2026.</summary>
    public static string Month(DateOnly day) => Phrases.Say("dates.month", ("month", Name(day)), ("year", Year(day)));

    /// <summary>A month in three letters, for a scale.</summary>
    public static string Short(DateOnly day) => Catalogue.Current.Say($"dates.short-{day.Month.ToString(CultureInfo.InvariantCulture)}");

    /// <summary>A month's name.</summary>
    public static string Name(DateOnly day) => Catalogue.Current.Say($"dates.name-{day.Month.ToString(CultureInfo.InvariantCulture)}");

    private static string Year(DateOnly day) => day.Year.ToString(CultureInfo.InvariantCulture);
}
