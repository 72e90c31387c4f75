using ScottPlot;

namespace Clackbeat.Report.Plots;

/// <summary>
/// The colours of plots. Data colours are those of Okabe and Ito, "Color Universal Design" (2008), which colour-blind
/// readers can tell apart; lines that meet also differ in weight or dash, so that they survive a grey print. Each has a
/// name under which a page may set its own shade for dark screens.
/// </summary>
internal static class Ink
{
    public static readonly Color Text = new(0x1B, 0x26, 0x24);
    public static readonly Color Muted = new(0x52, 0x60, 0x5D);
    public static readonly Color Grid = new(0xDD, 0xE2, 0xE0);
    public static readonly Color Gap = new(0xC9, 0xCD, 0xCB);
    public static readonly Color Blue = new(0x00, 0x72, 0xB2);
    public static readonly Color Sky = new(0x56, 0xB4, 0xE9);
    public static readonly Color Orange = new(0xE6, 0x9F, 0x00);
    public static readonly Color Green = new(0x00, 0x9E, 0x73);
    public static readonly Color Vermilion = new(0xD5, 0x5E, 0x00);

    /// <summary>Hex as it stands in drawn SVG, and the name of the page's colour.</summary>
    public static readonly IReadOnlyDictionary<string, string> Names = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase)
    {
        [Hex(Text)] = "ink",
        [Hex(Muted)] = "muted",
        [Hex(Grid)] = "grid",
        [Hex(Gap)] = "gap",
        [Hex(Blue)] = "blue",
        [Hex(Sky)] = "sky",
        [Hex(Orange)] = "orange",
        [Hex(Green)] = "green",
        [Hex(Vermilion)] = "red",
    };

    private static string Hex(Color color) => $"#{color.R:X2}{color.G:X2}{color.B:X2}";
}
