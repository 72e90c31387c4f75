namespace Clackbeat.Report.Export;

/// <summary>Drops digits that carry no meaning, so that files stay readable without losing anything measured.</summary>
internal static class Rounding
{
    private const int SignificantDigits = 6;
    private const int UncertaintyDigits = 3;

    /// <summary>
    /// Six significant digits: a part in a million, far finer than any gauge reads. Null for anything that is no number.
    /// </summary>
    public static double? Value(double? value) => Significant(value, SignificantDigits);

    /// <summary>Three significant digits; JCGM 100:2008 §7.2.6 asks for two at most, one more lets others round.</summary>
    public static double? Uncertainty(double? value) => Significant(value, UncertaintyDigits);

    /// <summary>Whole microseconds: an instant must not lose its digits as a record grows long.</summary>
    public static double? Seconds(double? seconds) =>
        seconds is { } s && double.IsFinite(s) ? Math.Round(s, 6) + 0.0 : null;

    private static double? Significant(double? value, int digits)
    {
        if (value is not { } v || !double.IsFinite(v))
        {
            return null;
        }

        // Through text, because scaling by powers of ten brings the stray digits back. Adding zero drops a minus sign from zero.
        string text = v.ToString("E" + (digits - 1), System.Globalization.CultureInfo.InvariantCulture);
        return double.Parse(text, System.Globalization.CultureInfo.InvariantCulture) + 0.0;
    }
}
