using Clackbeat.Report.Fonts;
using PdfSharp.Fonts;

namespace Clackbeat.Report.Pdf;

/// <summary>Hands the embedded typeface to the PDF library.</summary>
internal sealed class PdfFontResolver : IFontResolver
{
    private const string Regular = "regular";
    private const string Bold = "bold";

    /// <summary>Makes the typeface known; a resolver the host program has set stays.</summary>
    public static void Register() => GlobalFontSettings.FontResolver ??= new PdfFontResolver();

    public FontResolverInfo? ResolveTypeface(string familyName, bool bold, bool italic) =>
        new(bold ? Bold : Regular, mustSimulateBold: false, mustSimulateItalic: italic);

    public byte[]? GetFont(string faceName) => ReportFont.TrueType(faceName == Bold);
}
