using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Report.Wording;

/// <summary>What a figure is, and where it matters the name its unit goes by in a report.</summary>
/// <param name="Quantity">How its SI value is written.</param>
/// <param name="Unit">Written in place of the usual unit; null keeps that.</param>
internal sealed record Kind(QuantityKind Quantity, string? Unit = null)
{
    public static readonly Kind Pressure = new(QuantityKind.Pressure);
    public static readonly Kind Flow = new(QuantityKind.Flow);
    public static readonly Kind Volume = new(QuantityKind.Volume);
    public static readonly Kind Length = new(QuantityKind.Length);
    public static readonly Kind Temperature = new(QuantityKind.Temperature);
    public static readonly Kind Speed = new(QuantityKind.Velocity);
    public static readonly Kind Mass = new(QuantityKind.Mass);
    public static readonly Kind Time = new(QuantityKind.Duration);
    public static readonly Kind Share = new(QuantityKind.Share);

    /// <summary>Beats a minute; a plain number as far as writing goes.</summary>
    public static readonly Kind Rate = new(QuantityKind.Frequency, "a\u00A0minute");
}

/// <summary>Writes quantities; null in gives null out, so that a withheld figure stays withheld.</summary>
internal static class Show
{
    private const string PlusMinus = " ± ";

    /// <summary>A figure with its uncertainty.</summary>
    public static Measure? Of(Kind kind, Figure? figure) =>
        figure is { } f && double.IsFinite(f.Value) && double.IsFinite(f.U)
            ? Both(kind, units => QuantityFormat.Format(kind.Quantity, f.Value, f.U, units))
            : null;

    /// <summary>A plain number to three significant digits unless told otherwise.</summary>
    public static Measure? Of(Kind kind, double? value, int digits = 3) =>
        value is { } v && double.IsFinite(v)
            ? Both(kind, units => QuantityFormat.Format(kind.Quantity, v, units, digits))
            : null;

    /// <summary>A sentence of the rating, its pressures in both unit systems.</summary>
    public static Rich Of(Sentence sentence) => new([.. sentence.Parts.Select(part => part.Words is { } words
        ? new Run(words, null)
        : new Run(null, part.Pressure.UncertaintyPa is { } u
            ? Of(Kind.Pressure, new Figure(part.Pressure.Pa, u))
            : Of(Kind.Pressure, part.Pressure.Pa)))]);

    /// <summary>A length of time in the unit a person would use.</summary>
    public static string Duration(double seconds) =>
        double.IsFinite(seconds) ? Parts(QuantityFormat.Format(QuantityKind.Duration, seconds, Units.Metric), null).ToString() : "";

    private static Measure Both(Kind kind, Func<Units, string> write) =>
        new(Parts(write(Units.Metric), kind.Unit), Parts(write(Units.Us), kind.Unit));

    // "2.45 ± 0.03 bar" comes apart at its spaces; a real minus sign reads better than a hyphen.
    private static MeasureText Parts(string text, string? unit)
    {
        int margin = text.IndexOf(PlusMinus, StringComparison.Ordinal);
        int number = margin < 0 ? 0 : margin + PlusMinus.Length;
        int space = text.IndexOf(' ', number);
        string value = (margin < 0 ? text[..space] : text[..margin]).Replace('-', '\u2212');
        return new MeasureText(value, margin < 0 ? "" : text[number..space], unit ?? text[(space + 1)..]);
    }
}
