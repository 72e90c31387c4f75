using System.Globalization;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>Days and numbers as the tables of trend write them.</summary>
internal static class TrendText
{
    /// <summary>What a ± stands for, after JCGM 100:2008, 7.2.3: the level of confidence and the coverage factor.</summary>
    public static string Coverage => Phrases.Say("trend.coverage");

    /// <summary>A day of a trend's time axis.</summary>
    public static string Day(double dayNumber) => Day(DateOnly.FromDayNumber((int)dayNumber));

    /// <summary>A day.</summary>
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A number to so many decimals.</summary>
    public static string Fixed(double value, int decimals) => Phrases.Number(Rounding.Fixed(value, decimals));
}
