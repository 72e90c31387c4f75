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
    public static string Format(QuantityKind kind, double value, Units units, int digits = UsualDigits) => Parts(kind, value, units, digits).ToString();

    /// <summary>A value and its unit, apart.</summary>
    /// <param name="kind">What the value is.</param>
    /// <param name="value">The value in the kind's SI unit.</param>
    /// <param name="units">Units to show.</param>
    /// <param name="digits">Significant digits; figures above that are still written out to the unit.</param>
    public static QuantityParts Parts(QuantityKind kind, double value, Units units, int digits = UsualDigits)
    {
        (double figure, string? unit) = UnitTable.Of(kind).Show(value, value, units);
        return new QuantityParts(Rounding.Fixed(figure, Rounding.PlacesOfBare(figure, digits)), "", unit);
    }

    /// <summary>
    /// A value and its expanded uncertainty, such as "2.45 ± 0.03 bar", by the rule of <see cref="Rounding"/>.
    /// </summary>
    /// <param name="kind">What the value is.</param>
    /// <param name="value">The value in the kind's SI unit.</param>
    /// <param name="uncertainty">Its expanded uncertainty in the same unit.</param>
    /// <param name="units">Units to show.</param>
    public static string Format(QuantityKind kind, double value, double uncertainty, Units units) => Parts(kind, value, uncertainty, units).ToString();

    /// <summary>A value, its expanded uncertainty and their unit, apart; without an uncertainty where it is 0.</summary>
    /// <param name="kind">What the value is.</param>
    /// <param name="value">The value in the kind's SI unit.</param>
    /// <param name="uncertainty">Its expanded uncertainty in the same unit.</param>
    /// <param name="units">Units to show.</param>
    public static QuantityParts Parts(QuantityKind kind, double value, double uncertainty, Units units)
    {
        var table = UnitTable.Of(kind);
        (double figure, string? unit) = table.Show(value, value, units);
        double shownUncertainty = Math.Abs(table.ShowDifference(uncertainty, value, units));
        if (shownUncertainty == 0)
        {
            return Parts(kind, value, units);
        }

        int places = Rounding.Places(figure, shownUncertainty);
        return new QuantityParts(Rounding.Fixed(figure, places), Rounding.Margin(shownUncertainty, places), unit);
    }

    /// <summary>Two ends of a range in one unit, such as "0.9 to 1.4 m/s".</summary>
    /// <param name="kind">What the values are.</param>
    /// <param name="low">Lower end in the kind's SI unit.</param>
    /// <param name="high">Upper end in the kind's SI unit.</param>
    /// <param name="units">Units to show.</param>
    /// <param name="digits">Significant digits.</param>
    public static string FormatRange(QuantityKind kind, double low, double high, Units units, int digits = 2)
    {
        (string Low, string High, string Unit) range = RangeParts(kind, low, high, units, digits);
        return $"{range.Low} to {range.High} {range.Unit}";
    }

    /// <summary>Two ends of a range and their unit, apart.</summary>
    /// <param name="kind">What the values are.</param>
    /// <param name="low">Lower end in the kind's SI unit.</param>
    /// <param name="high">Upper end in the kind's SI unit.</param>
    /// <param name="units">Units to show.</param>
    /// <param name="digits">Significant digits.</param>
    public static (string Low, string High, string Unit) RangeParts(QuantityKind kind, double low, double high, Units units, int digits = 2)
    {
        var table = UnitTable.Of(kind);
        double size = Math.Max(Math.Abs(low), Math.Abs(high));
        (double lowFigure, string? unit) = table.Show(low, size, units);
        (double highFigure, string _) = table.Show(high, size, units);
        // The smaller end is at most one place finer than the larger: "0.00 to 9.9 bar", not "-0.00042 to 9.9 bar".
        int finest = Rounding.PlacesOfBare(Math.Max(Math.Abs(lowFigure), Math.Abs(highFigure)), digits) + 1;
        string End(double figure) => Rounding.Fixed(figure, Math.Min(finest, Rounding.PlacesOfBare(figure, digits)));
        return (End(lowFigure), End(highFigure), unit);
    }
}
