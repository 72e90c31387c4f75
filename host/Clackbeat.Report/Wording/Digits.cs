using System.Globalization;

namespace Clackbeat.Report.Wording;

/// <summary>Plain numbers without a unit of their own: counts, ticks, percentages.</summary>
internal static class Digits
{
    private const string Minus = "\u2212";

    /// <summary>A whole number with thin spaces between thousands, which no reader takes for a decimal sign.</summary>
    public static string Count(long count) =>
        count.ToString("#,0", CultureInfo.InvariantCulture).Replace(",", "\u202F", StringComparison.Ordinal);

    /// <summary>A number to a fixed count of decimals.</summary>
    public static string Fixed(double value, int decimals)
    {
        string text = Math.Abs(value).ToString("F" + decimals, CultureInfo.InvariantCulture);
        bool isZero = text.AsSpan().IndexOfAnyInRange('1', '9') < 0;
        return value < 0 && !isZero ? Minus + text : text;
    }

    /// <summary>A number to so many significant digits, whole digits always written out.</summary>
    public static string Significant(double value, int digits) => value == 0 || !double.IsFinite(value)
        ? "0"
        : Fixed(value, Math.Clamp(digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 9));
}
