using Clackbeat.Report.Fonts;
using ScottPlot;
using SkiaSharp;

namespace Clackbeat.Report.Plots;

/// <summary>Hands the embedded typeface to the plotting library.</summary>
internal sealed class PlotFontResolver : IFontResolver
{
    private static readonly Lock Gate = new();
    private static bool _registered;

    private readonly Lazy<SKTypeface> _regular = new(() => Load(bold: false));
    private readonly Lazy<SKTypeface> _strong = new(() => Load(bold: true));

    /// <summary>Makes the typeface known; further calls do nothing.</summary>
    public static void Register()
    {
        lock (Gate)
        {
            if (!_registered)
            {
                ScottPlot.Fonts.FontResolvers.Insert(0, new PlotFontResolver());
                _registered = true;
            }
        }
    }

    public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) =>
        CreateTypeface(fontName, weight >= FontWeight.SemiBold, slant != FontSlant.Upright);

    public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic) =>
        fontName == ReportFont.Family ? (bold ? _strong : _regular).Value : null;

    private static SKTypeface Load(bool bold)
    {
        using var data = SKData.CreateCopy(ReportFont.TrueType(bold));
        return SKTypeface.FromData(data);
    }
}
