using Tomlyn;
using Tomlyn.Model;

namespace Clackbeat.Sensing.Tests.Drawings;

/// <summary>A part with two pins: between two nets, or hanging on one towards ground.</summary>
internal sealed record Part(string Ref, string Kind, string Value, string From, string To, bool Hangs, string? Control, string Buy)
{
    public IEnumerable<string> Nets => Hangs ? [From] : [From, To];
}

/// <summary>Something with several pins, by name, each on a net.</summary>
internal sealed record Block(string Ref, string Name, string About, IReadOnlyList<(string Pin, string Net)> Pins, string Buy);

/// <summary>A line of the drawing.</summary>
internal sealed record Row(string Left, IReadOnlyList<string> Nets, string Right);

/// <summary>The wiring of one variant, read from <c>hardware/netlist.toml</c>.</summary>
internal sealed record Netlist(
    string Variant, string Title, string File, string Note, IReadOnlyList<Block> Blocks, IReadOnlyList<Part> Parts,
    IReadOnlyList<Row> Rows, IReadOnlyList<(string Quantity, string What)> Extras)
{
    private static readonly TomlTable Table = TomlSerializer.Deserialize<TomlTable>(Repository.Text("hardware", "netlist.toml"))!;

    public static IReadOnlyList<string> Variants => [.. Tables("variant").Select(v => (string)v["name"])];

    public static Netlist Of(string variant)
    {
        TomlTable about = Tables("variant").Single(v => (string)v["name"] == variant);
        return new Netlist(
            variant, (string)about["title"], (string)about["file"], (string)about["note"],
            [.. In(variant, "block").Select(ToBlock)],
            [.. In(variant, "part").Select(ToPart)],
            [.. In(variant, "row").Select(r => new Row((string)r["left"], Texts(r["nets"]), (string)r["right"]))],
            [.. Tables("buy").Select(b => ((string)b["quantity"], (string)b["what"]))]);
    }

    public Part Of(string reference, string kind) => Parts.Single(p => p.Ref == reference && p.Kind == kind);

    public Block Block(string reference) => Blocks.Single(b => b.Ref == reference);

    /// <summary>The net of a pin, such as "U1.GPIO 34".</summary>
    public string NetOf(string pin)
    {
        int dot = pin.IndexOf('.', StringComparison.Ordinal);
        return Block(pin[..dot]).Pins.Single(p => p.Pin == pin[(dot + 1)..]).Net;
    }

    private static IEnumerable<TomlTable> Tables(string name) => ((TomlTableArray)Table[name]).Cast<TomlTable>();

    private static IEnumerable<TomlTable> In(string variant, string name) =>
        Tables(name).Where(t => Texts(t["variants"]).Contains(variant));

    private static Block ToBlock(TomlTable t) => new(
        (string)t["ref"], (string)t["name"], Text(t, "about") ?? "",
        [.. ((TomlTable)t["pins"]).Select(p => (p.Key, (string)p.Value))], (string)t["buy"]);

    private static Part ToPart(TomlTable t)
    {
        List<string> between = t.TryGetValue("between", out object? nets) ? Texts(nets) : [(string)t["hangs"], "GND"];
        return new Part(
            (string)t["ref"], (string)t["kind"], (string)t["value"], between[0], between[1], !t.ContainsKey("between"),
            Text(t, "control"), (string)t["buy"]);
    }

    private static string? Text(TomlTable t, string key) => t.TryGetValue(key, out object? value) ? (string)value : null;

    private static List<string> Texts(object list) => [.. ((TomlArray)list).Select(v => (string)v!)];
}
