using Clackbeat.Report.Fonts;
using Clackbeat.Report.Wording;
using PdfSharp.Drawing;

namespace Clackbeat.Report.Pdf;

/// <summary>Type sizes [pt] and colours of the printed report.</summary>
internal static class PdfInk
{
    public static readonly XFont Body = new(ReportFont.Family, 10);
    public static readonly XFont BodyBold = new(ReportFont.Family, 10, XFontStyleEx.Bold);
    public static readonly XFont Small = new(ReportFont.Family, 8.5);
    public static readonly XFont Heading = new(ReportFont.Family, 15, XFontStyleEx.Bold);
    public static readonly XFont SubHeading = new(ReportFont.Family, 11.5, XFontStyleEx.Bold);
    public static readonly XFont Title = new(ReportFont.Family, 24, XFontStyleEx.Bold);
    public static readonly XFont Headline = new(ReportFont.Family, 17, XFontStyleEx.Bold);
    public static readonly XFont Lead = new(ReportFont.Family, 11.5);
    public static readonly XFont Big = new(ReportFont.Family, 21);

    public static readonly XBrush Text = new XSolidBrush(XColor.FromArgb(0x1B, 0x26, 0x24));
    public static readonly XBrush Muted = new XSolidBrush(XColor.FromArgb(0x52, 0x60, 0x5D));
    public static readonly XPen Hair = new(XColor.FromArgb(0xC5, 0xCB, 0xC9), 0.6);
    public static readonly XPen Rule = new(XColor.FromArgb(0x1B, 0x26, 0x24), 1.2);

    /// <summary>Colour of words in a tone.</summary>
    public static XColor Strong(Tone tone) => tone switch
    {
        Tone.Well => XColor.FromArgb(0x00, 0x69, 0x4D),
        Tone.Look => XColor.FromArgb(0x8A, 0x5A, 0x00),
        Tone.Stop => XColor.FromArgb(0xA8, 0x34, 0x00),
        _ => XColor.FromArgb(0x31, 0x56, 0x6B),
    };

    /// <summary>Ground under words in a tone.</summary>
    public static XColor Ground(Tone tone) => tone switch
    {
        Tone.Well => XColor.FromArgb(0xEE, 0xF6, 0xF3),
        Tone.Look => XColor.FromArgb(0xFB, 0xF4, 0xE4),
        Tone.Stop => XColor.FromArgb(0xFB, 0xEC, 0xE5),
        _ => XColor.FromArgb(0xEE, 0xF3, 0xF5),
    };
}
