using System.Globalization;

namespace Clackbeat.Report.Wording;

/// <summary>Turns numbers into text with no more digits than are known.</summary>
internal static class Digits
{
    private const string Minus = "\u2212";

    /// <summary>
    /// A figure and its uncertainty to the same decimal place. The uncertainty keeps one digit, or two where it starts
    /// with 1, which stays inside the "at most two" of JCGM 100:2008 §7.2.6.
    /// </summary>
    public static (string Value, string Margin) WithMargin(double value, double margin)
    {
        if (margin <= 0)
        {
            return (Significant(value, 4), "");
        }

        int place = LastPlace(margin);
        return (AtPlace(value, place), AtPlace(margin, place));
    }

    /// <summary>A figure without uncertainty, to so many significant digits.</summary>
    public static string Significant(double value, int digits)
    {
        if (value == 0)
        {
            return "0";
        }

        int place = Exponent(value) - digits + 1;
        return AtPlace(value, Exponent(RoundedTo(value, place)) - digits + 1);
    }

    /// <summary>A whole number with thin spaces between thousands, which no reader takes for a decimal sign.</summary>
    public static string Count(long count) =>
        count.ToString("#,0", CultureInfo.InvariantCulture).Replace(",", "\u202F", StringComparison.Ordinal);

    /// <summary>A number to a fixed count of decimals.</summary>
    public static string Fixed(double value, int decimals) => AtPlace(value, -decimals);

    private static int LastPlace(double margin)
    {
        int exponent = Exponent(margin);
        double lead = RoundedTo(margin, exponent - 1) / Math.Pow(10, Exponent(RoundedTo(margin, exponent - 1)));
        int place = Exponent(RoundedTo(margin, exponent - 1));
        return lead < 2 ? place - 1 : place;
    }

    private static int Exponent(double value) => (int)Math.Floor(Math.Log10(Math.Abs(value)) + 1e-12);

    private static double RoundedTo(double value, int place)
    {
        double step = Math.Pow(10, place);
        return Math.Round(value / step, MidpointRounding.AwayFromZero) * step;
    }

    private static string AtPlace(double value, int place)
    {
        double rounded = place > 0 ? RoundedTo(value, place) : value;
        string text = Math.Abs(rounded).ToString("F" + Math.Clamp(-place, 0, 9), CultureInfo.InvariantCulture);
        bool negative = rounded < 0 && text.AsSpan().IndexOfAnyInRange('1', '9') >= 0;
        return negative ? Minus + text : text;
    }
}
