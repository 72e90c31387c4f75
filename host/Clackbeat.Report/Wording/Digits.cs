using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <summary>Plain numbers without a unit of their own: counts, ticks, percentages.</summary>
internal static class Digits
{
    private const string Minus = "\u2212";

    /// <summary>A whole number with thin spaces between thousands, which no reader takes for a decimal sign.</summary>
    public static string Count(long count) =>
        count.ToString("#,0", Catalogue.Current.Language.Numbers);

    /// <summary>A number to a fixed count of decimals.</summary>
    public static string Fixed(double value, int decimals)
    {
        string text = Phrases.Number(Rounding.Fixed(value, decimals));
        return text.StartsWith('-') ? Minus + text[1..] : text;
    }

    /// <summary>A number with its ±, by the rule for all figures.</summary>
    public static string WithMargin(double value, double uncertainty) => Phrases.Number(Rounding.WithMargin(value, uncertainty));

    /// <summary>A number to so many significant digits, whole digits always written out.</summary>
    public static string Significant(double value, int digits) => value == 0 || !double.IsFinite(value)
        ? "0"
        : Fixed(value, Rounding.PlacesOfBare(value, digits));
}
