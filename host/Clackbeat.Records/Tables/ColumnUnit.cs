using Clackbeat.Site;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Records.Tables;

/// <summary>
/// Turns the numbers of a trace's column into SI. A minus sign before a pressure unit turns an upside-down channel
/// (<c>-cm</c>). The units are those of the site file, so that a word means the same in both.
/// </summary>
/// <param name="Scale">SI value of 1.</param>
public readonly record struct ColumnUnit(double Scale)
{
    // Within a pressure column a bare length is a height of water.
    private static readonly Dictionary<string, string> BareHeights = new(StringComparer.OrdinalIgnoreCase)
    {
        ["mm"] = "mmH2O",
        ["in"] = "inH2O",
    };

    /// <summary>The unit of a time column.</summary>
    /// <exception cref="InputException">The word is no unit of time.</exception>
    public static ColumnUnit OfTime(string unit) => Find(unit, QuantityKind.Duration, "--time");

    /// <summary>The unit of a gauge pressure column.</summary>
    /// <exception cref="InputException">The word is no unit of pressure.</exception>
    public static ColumnUnit OfPressure(string unit)
    {
        ColumnUnit found = Find(unit.TrimStart('-'), QuantityKind.Pressure, "--pressure");
        return unit.StartsWith('-') ? new ColumnUnit(-found.Scale) : found;
    }

    private static ColumnUnit Find(string unit, QuantityKind kind, string option)
    {
        try
        {
            return new ColumnUnit(QuantityText.Unit(kind, Spelt(unit, kind)).Scale);
        }
        catch (InputException unknown)
        {
            throw InputException.Of(unknown, "option.wrong", ("option", option), ("why", unknown.What));
        }
    }

    private static string Spelt(string unit, QuantityKind kind) =>
        kind == QuantityKind.Pressure ? BareHeights.GetValueOrDefault(unit, unit) : unit;
}
