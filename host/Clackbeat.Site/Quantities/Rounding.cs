using System.Globalization;

namespace Clackbeat.Site.Quantities;

/// <summary>
/// The one rule by which figures are written for people: the ± to two significant digits at most, the value to the same place
/// (JCGM 100:2008, 7.2.6), and no value to more than four digits. Files for programs keep more.
/// </summary>
public static class Rounding
{
    // Nobody at a stream reads a fifth digit, and no sensor here tells it.
    private const int MostDigits = 4;
    // Without ± nothing says how far a value can be believed.
    private const int BareDigits = 3;
    private const int MostPlaces = 9;

    /// <summary>Where a value with this ± ends: decimals, negative for tens and hundreds.</summary>
    /// <param name="value">The value.</param>
    /// <param name="uncertainty">Its expanded uncertainty in the same unit; not 0.</param>
    public static int Places(double value, double uncertainty)
    {
        double size = Math.Abs(uncertainty);
        // 0.3 over 0.1 is a little less than 3 in binary.
        double leading = Math.Round(size / Math.Pow(10, Math.Floor(Math.Log10(size))), 9);
        // One digit, or two where it begins with 1 or 2: one alone would change it by up to a half.
        int byUncertainty = PlacesFor(size, leading < 3 ? 2 : 1);
        return value == 0 ? byUncertainty : Math.Min(byUncertainty, PlacesFor(value, MostDigits));
    }

    /// <summary>Where a value without ± ends: to so many digits, whole digits of up to four written out.</summary>
    /// <param name="value">The value.</param>
    /// <param name="digits">Significant digits.</param>
    public static int PlacesOfBare(double value, int digits)
    {
        if (value == 0 || !double.IsFinite(value))
        {
            return 0;
        }

        int places = PlacesFor(value, digits);
        return places >= 0 || PlacesFor(value, MostDigits) >= 0 ? Math.Max(0, places) : places;
    }

    /// <summary>A figure rounded to a place; never "-0".</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="places">Decimals, negative for tens and hundreds.</param>
    public static string Fixed(double figure, int places)
    {
        double step = Math.Pow(10, Math.Max(0, -places));
        double rounded = places < 0 ? Math.Round(figure / step, MidpointRounding.AwayFromZero) * step : figure;
        string text = rounded.ToString($"F{Math.Max(0, places)}", CultureInfo.InvariantCulture);
        return text.StartsWith('-') && text.AsSpan().IndexOfAnyInRange('1', '9') < 0 ? text[1..] : text;
    }

    /// <summary>A ± at a place; one that would vanish is written as one unit of the last digit.</summary>
    /// <param name="uncertainty">The ±.</param>
    /// <param name="places">Where its value ends.</param>
    public static string Margin(double uncertainty, int places) => Fixed(Math.Max(Math.Abs(uncertainty), Math.Pow(10, -places)), places);

    /// <summary>A bare number with its ±, such as beats a minute or a ratio, by the rule; without ± where that is 0.</summary>
    /// <param name="value">The value.</param>
    /// <param name="uncertainty">Its expanded uncertainty in the same unit.</param>
    public static string WithMargin(double value, double uncertainty)
    {
        if (!(Math.Abs(uncertainty) > 0))
        {
            return Fixed(value, PlacesOfBare(value, BareDigits));
        }

        int places = Places(value, uncertainty);
        return $"{Fixed(value, places)} ± {Margin(uncertainty, places)}";
    }

    private static int PlacesFor(double figure, int digits) =>
        Math.Min(MostPlaces, digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(figure))));
}
