using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Words;

/// <summary>Phrases in the language that is spoken just now: see <see cref="Catalogue.Current"/>.</summary>
public static class Phrases
{
    /// <summary>A phrase with its values.</summary>
    /// <param name="key">Table and key, as <c>report.not-given</c>.</param>
    /// <param name="values">Names and values.</param>
    public static string Say(string key, params FactValue[] values) => Catalogue.Current.Say(key, values);

    /// <summary>A figure that is written already, with the decimal sign of the language.</summary>
    /// <param name="figure">Digits with a point, as the program's files have them.</param>
    public static string Number(string figure) => figure.Replace('.', Catalogue.Current.Language.DecimalSign);

    /// <summary>A value with its unit, see <see cref="QuantityFormat.Format(QuantityKind, double, Units, int)"/>.</summary>
    public static string Format(QuantityKind kind, double value, Units units, int digits = 3) => Number(QuantityFormat.Format(kind, value, units, digits));

    /// <summary>A value with its ± and unit, see <see cref="QuantityFormat.Format(QuantityKind, double, double, Units)"/>.</summary>
    public static string Format(QuantityKind kind, double value, double uncertainty, Units units) => Number(QuantityFormat.Format(kind, value, uncertainty, units));

    /// <summary>Two ends of a range in one unit, see <see cref="QuantityFormat.RangeParts"/>.</summary>
    public static string FormatRange(QuantityKind kind, double low, double high, Units units, int digits = 2)
    {
        (string Low, string High, string Unit) range = QuantityFormat.RangeParts(kind, low, high, units, digits);
        return Say("numbers.range", ("low", Number(range.Low)), ("high", Number(range.High)), ("unit", range.Unit));
    }

    /// <summary>A bare number with its ±, see <see cref="Rounding.WithMargin"/>.</summary>
    public static string WithMargin(double value, double uncertainty) => Number(Rounding.WithMargin(value, uncertainty));
}
