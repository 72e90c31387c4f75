using Clackbeat.Signal.Figures;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <summary>What a figure is, and where it matters the name its unit goes by in a report.</summary>
/// <param name="Quantity">How its SI value is written.</param>
/// <param name="Unit">Key of the phrase that is written in place of the usual unit; null keeps that.</param>
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
    public static readonly Kind Rate = new(QuantityKind.Frequency, "report.a-minute");
}

/// <summary>Writes quantities; null in gives null out, so that a withheld figure stays withheld.</summary>
internal static class Show
{
    /// <summary>A figure with its uncertainty.</summary>
    public static Measure? Of(Kind kind, Figure? figure) =>
        figure is { } f && double.IsFinite(f.Value) && double.IsFinite(f.U)
            ? Both(kind, units => QuantityFormat.Parts(kind.Quantity, f.Value, f.U, units)).AsUpperBound(f.IsUpperBound)
            : null;

    /// <summary>A plain number to three significant digits unless told otherwise.</summary>
    public static Measure? Of(Kind kind, double? value, int digits = 3) =>
        value is { } v && double.IsFinite(v)
            ? Both(kind, units => QuantityFormat.Parts(kind.Quantity, v, units, digits))
            : null;

    /// <summary>A sentence of the rating, its pressures in both unit systems.</summary>
    public static Rich Of(Sentence sentence) => new([.. sentence.Parts.Select(part => part.Words is { } words
        ? new Run(words, null)
        : new Run(null, part.Pressure.UncertaintyPa is { } u
            ? Of(Kind.Pressure, new Figure(part.Pressure.Pa, u))
            : Of(Kind.Pressure, part.Pressure.Pa)))]);

    /// <summary>A length of time in the unit a person would use.</summary>
    public static string Duration(double seconds) =>
        double.IsFinite(seconds) ? Text(QuantityFormat.Parts(QuantityKind.Duration, seconds, Units.Metric), null).ToString() : "";

    private static Measure Both(Kind kind, Func<Units, QuantityParts> write) =>
        new(Text(write(Units.Metric), Named(kind)), Text(write(Units.Us), Named(kind)));

    private static string? Named(Kind kind) => kind.Unit is { } key ? Catalogue.Current.Say(key) : null;

    // A real minus sign reads better than a hyphen.
    private static MeasureText Text(QuantityParts parts, string? unit) =>
        new(Phrases.Number(parts.Value).Replace('-', '\u2212'), Phrases.Number(parts.Uncertainty), unit ?? parts.Unit);
}
