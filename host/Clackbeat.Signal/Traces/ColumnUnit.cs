using Clackbeat.Site;

namespace Clackbeat.Signal.Traces;

/// <summary>
/// Turns the numbers of a trace's column into SI. A minus sign before a pressure unit turns an upside-down channel
/// (<c>-cm</c>). Heads of water are conventional: 9806.65 Pa a metre (NIST SP 811, appendix B), the foot 0.3048 m.
/// </summary>
/// <param name="Scale">SI value of 1.</param>
public readonly record struct ColumnUnit(double Scale)
{
    private const double MetreOfWaterPa = 9806.65;

    private static readonly Dictionary<string, double> Times = new(StringComparer.OrdinalIgnoreCase)
    {
        ["us"] = 1e-6,
        ["µs"] = 1e-6,
        ["ms"] = 1e-3,
        ["s"] = 1,
        ["min"] = 60,
        ["h"] = 3600,
        ["day"] = 86400,
    };

    private static readonly Dictionary<string, double> Pressures = new(StringComparer.OrdinalIgnoreCase)
    {
        ["Pa"] = 1,
        ["kPa"] = 1e3,
        ["MPa"] = 1e6,
        ["mbar"] = 100,
        ["bar"] = 1e5,
        ["psi"] = 6894.757293168,
        ["m"] = MetreOfWaterPa,
        ["cm"] = 0.01 * MetreOfWaterPa,
        ["mm"] = 0.001 * MetreOfWaterPa,
        ["ft"] = 0.3048 * MetreOfWaterPa,
        ["in"] = 0.0254 * MetreOfWaterPa,
    };

    /// <summary>The unit of a time column.</summary>
    /// <exception cref="InputException">The word is no unit of time.</exception>
    public static ColumnUnit OfTime(string unit) => Find(Times, unit, "--time", "time");

    /// <summary>The unit of a gauge pressure column.</summary>
    /// <exception cref="InputException">The word is no unit of pressure.</exception>
    public static ColumnUnit OfPressure(string unit)
    {
        ColumnUnit found = Find(Pressures, unit.TrimStart('-'), "--pressure", "pressure");
        return unit.StartsWith('-') ? new ColumnUnit(-found.Scale) : found;
    }

    /// <summary>The unit that ends a column's name, as in <c>t_s</c>, <c>p [bar]</c> or <c>level (cm)</c>; null when there is none.</summary>
    public static string? InName(string column, bool time)
    {
        string tail = column.TrimEnd(' ', ']', ')');
        tail = tail[(tail.LastIndexOfAny(['_', '[', '(', ' ']) + 1)..];
        Dictionary<string, double> units = time ? Times : Pressures;
        return tail.Length < column.Length && units.ContainsKey(tail) ? tail : null;
    }

    private static ColumnUnit Find(Dictionary<string, double> units, string unit, string option, string quantity) =>
        units.TryGetValue(unit, out double scale)
            ? new ColumnUnit(scale)
            : throw new InputException(
                $"{option}: '{unit}' is no unit of {quantity}. Use one of {string.Join(", ", units.Keys)}.");
}
