using Clackbeat.Signal.Analysis;

namespace Clackbeat.Report.Wording;

/// <summary>
/// A kind of quantity: how its SI value reads in both systems. Factors are the exact definitions of NIST SP 811 (2008),
/// appendix B.
/// </summary>
/// <param name="MetricUnit">Unit shown to metric readers.</param>
/// <param name="MetricFactor">SI value times this gives that unit.</param>
/// <param name="UsUnit">Unit shown to US readers.</param>
/// <param name="UsFactor">SI value times this gives that unit.</param>
internal sealed record Kind(string MetricUnit, double MetricFactor, string UsUnit, double UsFactor)
{
    /// <summary>Gauge pressure from Pa.</summary>
    public static readonly Kind Pressure = new("bar", 1e-5, "psi", 1 / 6894.757293168);

    /// <summary>Flow from m³/s; the US gallon is 3.785411784 L.</summary>
    public static readonly Kind Flow = new("L/min", 60_000, "US gal/min", 60_000 / 3.785411784);

    /// <summary>Volume from m³.</summary>
    public static readonly Kind Volume = new("L", 1000, "US gal", 1000 / 3.785411784);

    /// <summary>Heads and lengths from m.</summary>
    public static readonly Kind Length = new("m", 1, "ft", 1 / 0.3048);

    /// <summary>Bores and walls from m.</summary>
    public static readonly Kind Bore = new("mm", 1000, "in", 1 / 0.0254);

    /// <summary>Speeds from m/s.</summary>
    public static readonly Kind Speed = new("m/s", 1, "ft/s", 1 / 0.3048);

    /// <summary>Masses from kg.</summary>
    public static readonly Kind Mass = new("kg", 1, "lb", 1 / 0.45359237);

    /// <summary>Durations in s.</summary>
    public static readonly Kind Seconds = new("s", 1, "s", 1);

    /// <summary>Short durations from s.</summary>
    public static readonly Kind Milliseconds = new("ms", 1000, "ms", 1000);

    /// <summary>Shares from fractions.</summary>
    public static readonly Kind Share = new("%", 100, "%", 100);

    /// <summary>Beats a minute.</summary>
    public static readonly Kind Rate = new("a minute", 1, "a minute", 1);
}

/// <summary>Writes quantities; null in gives null out, so that a withheld figure stays withheld.</summary>
internal static class Show
{
    /// <summary>A figure with its uncertainty.</summary>
    public static Measure? Of(Kind kind, Figure? figure)
    {
        if (figure is not { } f || !double.IsFinite(f.Value) || !double.IsFinite(f.U))
        {
            return null;
        }

        return new Measure(Text(f, kind.MetricFactor, kind.MetricUnit), Text(f, kind.UsFactor, kind.UsUnit));
    }

    /// <summary>A plain number to three significant digits unless told otherwise.</summary>
    public static Measure? Of(Kind kind, double? value, int digits = 3)
    {
        if (value is not { } v || !double.IsFinite(v))
        {
            return null;
        }

        return new Measure(
            new MeasureText(Digits.Significant(v * kind.MetricFactor, digits), "", kind.MetricUnit),
            new MeasureText(Digits.Significant(v * kind.UsFactor, digits), "", kind.UsUnit));
    }

    /// <summary>A temperature in °C.</summary>
    public static Measure? Temperature(double? celsius) => celsius is { } c && double.IsFinite(c)
        ? new Measure(
            new MeasureText(Digits.Significant(c, 3), "", "°C"),
            new MeasureText(Digits.Significant((c * 1.8) + 32, 3), "", "°F"))
        : null;

    /// <summary>A length of time in the unit a person would use.</summary>
    public static string Duration(double seconds) => seconds switch
    {
        < 1 => Digits.Significant(seconds, 2) + "\u00A0s",
        < 120 => Digits.Significant(seconds, 3) + "\u00A0s",
        < 7200 => Digits.Significant(seconds / 60, 3) + "\u00A0min",
        < 172_800 => Digits.Significant(seconds / 3600, 3) + "\u00A0h",
        _ => Digits.Significant(seconds / 86_400, 3) + "\u00A0days",
    };

    private static MeasureText Text(Figure figure, double factor, string unit)
    {
        (string value, string margin) = Digits.WithMargin(figure.Value * factor, figure.U * factor);
        return new MeasureText(value, margin, unit);
    }
}
