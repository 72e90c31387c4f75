using System.Text.RegularExpressions;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands.Capture;

/// <summary>A column of a file of calibration points.</summary>
internal enum PointColumn
{
    /// <summary>What stood on the sensor.</summary>
    Reference,

    /// <summary>The signal's counts.</summary>
    Counts,

    /// <summary>The supply's counts.</summary>
    SupplyCounts,

    /// <summary>Standard uncertainty of the counts.</summary>
    CountsUncertainty,

    /// <summary>Standard deviation of single samples.</summary>
    Scatter,

    /// <summary>Number of samples.</summary>
    Samples,

    /// <summary>A column of the keeper's own, such as a remark.</summary>
    Other,
}

/// <summary>Which column holds what, what separates them, and the unit of bare references.</summary>
internal sealed partial class PointsLayout
{
    private static readonly char[] Separators = [';', '\t', ','];

    private static readonly Dictionary<string, PointColumn> Names = new(StringComparer.OrdinalIgnoreCase)
    {
        ["reference"] = PointColumn.Reference,
        ["pressure"] = PointColumn.Reference,
        ["p"] = PointColumn.Reference,
        ["height"] = PointColumn.Reference,
        ["column"] = PointColumn.Reference,
        ["head"] = PointColumn.Reference,
        ["gauge"] = PointColumn.Reference,
        ["counts"] = PointColumn.Counts,
        ["reading"] = PointColumn.Counts,
        ["adc"] = PointColumn.Counts,
        ["raw"] = PointColumn.Counts,
        ["supply counts"] = PointColumn.SupplyCounts,
        ["supply"] = PointColumn.SupplyCounts,
        ["counts uncertainty"] = PointColumn.CountsUncertainty,
        ["uncertainty"] = PointColumn.CountsUncertainty,
        ["scatter"] = PointColumn.Scatter,
        ["samples"] = PointColumn.Samples,
    };

    private readonly PointColumn[] _columns;
    private readonly char _separator;
    private readonly string? _unit;

    private PointsLayout(PointColumn[] columns, char separator, string? unit)
    {
        (_columns, _separator, _unit) = (columns, separator, unit);
    }

    /// <summary>The columns of a file without a header.</summary>
    /// <param name="line">Its first line, which shows the separator.</param>
    public static PointsLayout Usual(string line) => new(
        [.. Enum.GetValues<PointColumn>().Where(c => c != PointColumn.Other)], SeparatorOf(line), null);

    /// <summary>Reads a header; null for a line that names no column. Behind a # each word has to be a column's, else it is a remark.</summary>
    public static PointsLayout? TryRead(string line, string where)
    {
        string text = line.TrimStart();
        bool mayBeRemark = text.StartsWith('#');
        char separator = SeparatorOf(text);
        (PointColumn Column, string? Unit)[] columns = [.. text.TrimStart('#').Split(separator).Select(Named)];
        if (columns.Length < 2 || columns.All(c => c.Column == PointColumn.Other)
            || (mayBeRemark && columns.Any(c => c.Column == PointColumn.Other)))
        {
            return null;
        }

        foreach (PointColumn needed in new[] { PointColumn.Reference, PointColumn.Counts })
        {
            int times = columns.Count(c => c.Column == needed);
            if (times != 1)
            {
                throw (times, needed) switch
                {
                    (0, PointColumn.Counts) => InputException.Of("calibrate.no-counts-column", ("where", where)),
                    (0, _) => InputException.Of("calibrate.no-reference-column", ("where", where)),
                    (_, PointColumn.Counts) => InputException.Of("calibrate.counts-columns", ("where", where)),
                    _ => InputException.Of("calibrate.reference-columns", ("where", where)),
                };
            }
        }

        if (columns.FirstOrDefault(c => c.Column is not (PointColumn.Reference or PointColumn.Other) && c.Unit is not (null or "counts")) is { Unit: { } wrong })
        {
            throw InputException.Of("calibrate.unit-of-counts", ("where", where), ("unit", wrong));
        }

        string? unit = columns.First(c => c.Column == PointColumn.Reference).Unit;
        return unit is null || QuantityText.IsUnit(QuantityKind.Length, unit) || QuantityText.IsUnit(QuantityKind.Pressure, unit)
            ? new PointsLayout([.. columns.Select(c => c.Column)], separator, unit)
            : throw InputException.Of("calibrate.no-unit", ("where", where), ("unit", unit));
    }

    /// <summary>The filled cells of a line, the reference with its unit.</summary>
    public IReadOnlyDictionary<PointColumn, string> Cells(string line, string where)
    {
        string[] cells = [.. line.Split(_separator).Select(c => c.Trim().Trim('"'))];
        if (cells.Length < 2 || cells.Length > _columns.Length)
        {
            throw InputException.Of("calibrate.cells", ("where", where), ("cells", cells.Length), ("most", _columns.Length));
        }

        Dictionary<PointColumn, string> filled = [];
        for (int i = 0; i < cells.Length; i++)
        {
            if (cells[i].Length > 0 && _columns[i] != PointColumn.Other)
            {
                // Where columns part by semicolons or tabs, a comma is a decimal one.
                filled[_columns[i]] = _separator == ',' ? cells[i] : DecimalComma().Replace(cells[i], ".");
            }
        }

        if (!filled.TryGetValue(PointColumn.Reference, out string? reference) || !filled.ContainsKey(PointColumn.Counts))
        {
            throw InputException.Of("calibrate.cell-missing", ("where", where));
        }

        filled[PointColumn.Reference] = _unit is not null && PointsFile.IsNumber(reference) ? $"{reference} {_unit}" : reference;
        return filled;
    }

    /// <summary>A line in this order.</summary>
    public string Line(IReadOnlyDictionary<PointColumn, string> cells) =>
        string.Join(_separator, _columns.Select(c => cells.GetValueOrDefault(c, "")));

    private static char SeparatorOf(string line) => Separators.FirstOrDefault(s => line.Contains(s, StringComparison.Ordinal), ',');

    // "height [m]", "pressure (bar)", "p_kPa", "supply_counts".
    private static (PointColumn Column, string? Unit) Named(string cell)
    {
        string name = cell.Trim().Trim('"');
        Match bracket = Bracketed().Match(name);
        string words = (bracket.Success ? bracket.Groups["name"].Value : name).Replace('_', ' ').Trim();
        string? unit = bracket.Success ? bracket.Groups["unit"].Value.Trim() : null;
        if (Names.TryGetValue(words, out PointColumn known))
        {
            return (known, unit);
        }

        int last = words.LastIndexOf(' ');
        return unit is null && last > 0 && Names.TryGetValue(words[..last], out PointColumn column)
            ? (column, words[(last + 1)..])
            : (PointColumn.Other, null);
    }

    [GeneratedRegex(@"^(?<name>[^\[\(]+)[\[\(](?<unit>[^\]\)]+)[\]\)]$", RegexOptions.ExplicitCapture)]
    private static partial Regex Bracketed();

    [GeneratedRegex(@"(?<=\d),(?=\d)")]
    private static partial Regex DecimalComma();
}
