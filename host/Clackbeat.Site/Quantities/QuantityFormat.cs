using System.Globalization;

namespace Clackbeat.Site.Quantities;

/// <summary>
/// Writes SI values for people: one unit system throughout, and no more digits than the figure deserves.
/// </summary>
public static class QuantityFormat
{
    private const int UsualDigits = 3;

    /// <summary>A value with its unit, such as "2.45 bar".</summary>
    /// <param name="kind">What the value is.</param>
    /// <param name="value">The value in the kind's SI unit.</param>
    /// <param name="units">Units to show.</param>
    /// <param name="digits">Significant digits; figures above that are still written out to the unit.</param>
    public static string Format(QuantityKind kind, double value, Units units, int digits = UsualDigits)
    {
        var (figure, unit) = UnitTable.Of(kind).Show(value, value, units);
        return $"{Rounded(figure, Decimals(figure, digits))} {unit}";
    }

    /// <summary>
    /// A value and its expanded uncertainty, such as "2.45 ± 0.03 bar"; the uncertainty has one digit, or two when it
    /// starts with 1 or 2, and decides where the value ends (JCGM 100:2008, 7.2.6).
    /// </summary>
    /// <param name="kind">What the value is.</param>
    /// <param name="value">The value in the kind's SI unit.</param>
    /// <param name="uncertainty">Its expanded uncertainty in the same unit.</param>
    /// <param name="units">Units to show.</param>
    public static string Format(QuantityKind kind, double value, double uncertainty, Units units)
    {
        var table = UnitTable.Of(kind);
        var (figure, unit) = table.Show(value, value, units);
        var shownUncertainty = Math.Abs(table.ShowDifference(uncertainty, value, units));
        if (shownUncertainty == 0)
        {
            return Format(kind, value, units);
        }

        var leading = shownUncertainty / Math.Pow(10, Math.Floor(Math.Log10(shownUncertainty)));
        var decimals = Decimals(shownUncertainty, leading < 3 ? 2 : 1);
        return $"{Rounded(figure, decimals)} ± {Rounded(shownUncertainty, decimals)} {unit}";
    }

    /// <summary>Two ends of a range in one unit, such as "0.9 to 1.4 m/s".</summary>
    /// <param name="kind">What the values are.</param>
    /// <param name="low">Lower end in the kind's SI unit.</param>
    /// <param name="high">Upper end in the kind's SI unit.</param>
    /// <param name="units">Units to show.</param>
    /// <param name="digits">Significant digits.</param>
    public static string FormatRange(QuantityKind kind, double low, double high, Units units, int digits = 2)
    {
        var table = UnitTable.Of(kind);
        var size = Math.Max(Math.Abs(low), Math.Abs(high));
        var (lowFigure, unit) = table.Show(low, size, units);
        var (highFigure, _) = table.Show(high, size, units);
        return $"{Rounded(lowFigure, Decimals(lowFigure, digits))} to {Rounded(highFigure, Decimals(highFigure, digits))} {unit}";
    }

    private static int Decimals(double figure, int digits) =>
        figure == 0 || !double.IsFinite(figure)
            ? 0
            : Math.Clamp(digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(figure))), 0, 9);

    private static string Rounded(double figure, int decimals)
    {
        var text = figure.ToString($"F{decimals}", CultureInfo.InvariantCulture);
        return text.StartsWith('-') && text.All(c => c is '-' or '0' or '.') ? text[1..] : text;
    }
}
