using System.Globalization;
using Clackbeat.Season.Upkeep;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;
using nietras.SeparatedValues;

namespace Clackbeat.Season.Overview;

/// <summary>
/// A list of rams as a table: a line each, columns by their names <c>ram, latitude, longitude, need, keeper</c> in any order, of which
/// only <c>ram</c> must be there; further ones are called as the checks of <see cref="UpkeepTask"/>. Separated by commas, semicolons or tabs.
/// </summary>
public static class RamList
{
    private const string Ram = "ram";
    private const long LargestBytes = 4_000_000;
    private static readonly string[] Known = [Ram, "latitude", "longitude", "need", "keeper"];

    /// <summary>Reads a list.</summary>
    /// <param name="path">The file.</param>
    /// <returns>Entries by the ram's name.</returns>
    /// <exception cref="InputException">It can't be read, or a cell makes no sense; the message names the line.</exception>
    public static IReadOnlyDictionary<string, RamEntry> Read(string path)
    {
        if (!File.Exists(path))
        {
            throw InputException.Of("overview.no-list", ("file", path));
        }

        if (new FileInfo(path).Length > LargestBytes)
        {
            throw InputException.Of("overview.list-too-long", ("file", path));
        }

        try
        {
            return Parse(File.ReadAllText(path), path);
        }
        catch (Exception spoilt) when (spoilt is ArgumentException or InvalidDataException or InvalidOperationException)
        {
            throw InputException.Of(spoilt, "overview.list-spoilt", ("file", path), ("why", spoilt.Message.ReplaceLineEndings(" ")));
        }
    }

    private static Dictionary<string, RamEntry> Parse(string text, string path)
    {
        var rams = new Dictionary<string, RamEntry>(StringComparer.Ordinal);
        using SepReader reader = Sep.Reader(o => o with { Unescape = true, Trim = SepTrim.All }).FromText(text);
        var columns = reader.Header.ColNames.Select(c => c.Trim().ToLowerInvariant()).ToList();
        if (!columns.Contains(Ram))
        {
            throw InputException.Of("overview.list-columns", ("file", path), ("known", string.Join(", ", Known)));
        }

        foreach (SepReader.Row row in reader)
        {
            string where = string.Create(CultureInfo.InvariantCulture, $"{path}, line {row.LineNumberFrom}");
            string name = Cell(row, columns, Ram);
            if (name.Length == 0)
            {
                continue;
            }

            if (!rams.TryAdd(name, new RamEntry(name, PlaceOf(row, columns, where), NeedOf(row, columns, where), Cell(row, columns, "keeper")) { Intervals = IntervalsOf(row, columns, where) }))
            {
                throw InputException.Of("overview.ram-twice", ("where", where), ("ram", name));
            }
        }

        return rams;
    }

    private static string Cell(SepReader.Row row, List<string> columns, string name) =>
        columns.IndexOf(name) is >= 0 and var at && at < row.ColCount ? row[at].ToString().Trim() : "";

    private static Position? PlaceOf(SepReader.Row row, List<string> columns, string where)
    {
        (string latitude, string longitude) = (Cell(row, columns, "latitude"), Cell(row, columns, "longitude"));
        return latitude.Length == 0 && longitude.Length == 0
            ? null
            : new Position(Degrees(latitude, 90, where), Degrees(longitude, 180, where));
    }

    private static double Degrees(string text, double most, string where) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double degrees) && Math.Abs(degrees) <= most
            ? degrees
            : throw InputException.Of("overview.no-degrees", ("where", where), ("text", text), ("most", most));

    private static double? NeedOf(SepReader.Row row, List<string> columns, string where)
    {
        string text = Cell(row, columns, "need");
        if (text.Length == 0)
        {
            return null;
        }

        return QuantityText.TryParse(QuantityKind.Flow, text, out double need, out Fact? problem)
            ? need
            : throw InputException.Of("overview.no-need", ("where", where), ("problem", problem));
    }

    private static Dictionary<string, UpkeepInterval> IntervalsOf(SepReader.Row row, List<string> columns, string where)
    {
        var intervals = new Dictionary<string, UpkeepInterval>(StringComparer.Ordinal);
        foreach (string code in UpkeepTask.All.Select(t => t.Code))
        {
            string text = Cell(row, columns, code);
            if (text.Length > 0)
            {
                intervals[code] = UpkeepInterval.TryParse(text, out UpkeepInterval interval)
                    ? interval
                    : throw InputException.Of("overview.no-interval", ("where", where), ("column", code), ("text", text));
            }
        }

        return intervals;
    }
}
