using System.Globalization;
using Clackbeat.Hydraulics;
using Clackbeat.Site.Data;
using Clackbeat.Site.Quantities;
using Tomlyn.Model;

namespace Clackbeat.Site.Files;

/// <summary>The tables and keys a site file may have: one list for reader, template, check and documentation.</summary>
internal static class SiteSchema
{
    static SiteSchema()
    {
        TomlTable data = EmbeddedToml.Read("site-keys.toml");
        Tables = [.. ((TomlTableArray)data["table"]).Select(t => new SiteTable(
            (string)t["name"], t.TryGetValue("repeated", out object? r) && (bool)r, (string)t["about"]))];
        Keys = [.. ((TomlTableArray)data["key"]).Select(KeyFrom)];
    }

    /// <summary>The tables in their order.</summary>
    public static IReadOnlyList<SiteTable> Tables { get; }

    /// <summary>The keys in their order.</summary>
    public static IReadOnlyList<SiteKey> Keys { get; }

    /// <summary>A table by its name.</summary>
    public static SiteTable? TryTable(string name) => Tables.FirstOrDefault(t => t.Name == name);

    /// <summary>Names of the tables that stand within a table, without its own.</summary>
    public static IEnumerable<string> TablesWithin(string name) => Tables
        .Where(t => t.Name.StartsWith($"{name}.", StringComparison.Ordinal))
        .Select(t => t.Name[(name.Length + 1)..]);

    /// <summary>A key by its names.</summary>
    public static SiteKey? TryKey(string table, string key) => Keys.FirstOrDefault(k => k.Table == table && k.Key == key);

    /// <summary>The keys of a table.</summary>
    public static IEnumerable<SiteKey> KeysOf(string table) => Keys.Where(k => k.Table == table);

    private static SiteKey KeyFrom(TomlTable row)
    {
        string? kind = (string)row["kind"];
        // "PressureRange" is a range of pressures; a signal's range may be of volts or of milliamperes.
        bool isRange = kind.EndsWith(nameof(ValueKind.Range), StringComparison.Ordinal) && kind != nameof(ValueKind.SignalRange);
        bool isQuantity = Enum.TryParse<QuantityKind>(isRange ? kind[..^nameof(ValueKind.Range).Length] : kind, out QuantityKind quantity);
        return new SiteKey
        {
            Table = (string)row["table"],
            Key = (string)row["key"],
            Kind = isRange ? ValueKind.Range : isQuantity ? ValueKind.Quantity : Enum.Parse<ValueKind>(kind),
            Quantity = quantity,
            Required = row.TryGetValue("required", out object? required) && (bool)required,
            Written = !row.TryGetValue("written", out object? written) || (bool)written,
            Limits = new Band(Number(row, "above") ?? Number(row, "low") ?? 0, Number(row, "high") ?? double.MaxValue),
            AboveLow = row.ContainsKey("above"),
            Meaning = (string)row["meaning"],
            Metric = (string)row["metric"],
            Us = (string)(row.TryGetValue("us", out object? us) ? us : row["metric"]),
            LeftOut = row.TryGetValue("left_out", out object? leftOut) ? (string)leftOut : "",
            Choices = row.TryGetValue("choices", out object? choices) ? EmbeddedToml.Texts(choices) : [],
        };
    }

    private static double? Number(TomlTable row, string key) =>
        row.TryGetValue(key, out object? value) ? Convert.ToDouble(value, CultureInfo.InvariantCulture) : null;
}
