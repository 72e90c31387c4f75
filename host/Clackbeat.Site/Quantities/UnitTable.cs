using Clackbeat.Site.Data;
using Clackbeat.Site.Facts;
using Tomlyn.Model;
using UnitsNet;

namespace Clackbeat.Site.Quantities;

/// <summary>The units one kind of quantity may be written and shown in, from Data/units.toml.</summary>
internal sealed class UnitTable
{
    // Each kind is made when it is first asked for: the library's tables of one quantity take a millisecond, those of all
    // the hundred and more that it knows take as long as the rest of a short command.
    private static readonly Dictionary<QuantityKind, Lazy<UnitTable>> Tables = Load();

    private readonly Dictionary<string, Enum> _exact = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Enum> _anyCase = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<Units, List<ShownUnit>> _shown;
    private readonly Type _quantity;
    private readonly Enum _si;

    private UnitTable(QuantityKind kind, TomlTable table)
    {
        _quantity = typeof(Length).Assembly.GetType($"{typeof(Length).Namespace}.{table["quantity"]}", throwOnError: true)!;
        var info = (QuantityInfo)_quantity.GetProperty(nameof(Length.Info))!.GetValue(null)!;
        _si = Unit(info, (string)table["si"]);
        What = new Fact($"kinds.{kind}", []);
        Examples = new Dictionary<Units, string>
        {
            [Units.Metric] = (string)table["metric"],
            [Units.Us] = (string)table["us"],
        };
        _shown = new Dictionary<Units, List<ShownUnit>>
        {
            [Units.Metric] = Shown(info, (TomlArray)table["show_metric"]),
            [Units.Us] = Shown(info, (TomlArray)table["show_us"]),
        };
        foreach ((string? name, object? spellings) in (TomlTable)table["units"])
        {
            foreach (string spelling in EmbeddedToml.Texts(spellings))
            {
                _exact.Add(spelling, Unit(info, name));
                _anyCase.TryAdd(spelling, Unit(info, name));
            }
        }
    }

    /// <summary>"a length", "a gauge pressure": what a message asks for.</summary>
    public Fact What { get; }

    /// <summary>A valid text in each system of units.</summary>
    public IReadOnlyDictionary<Units, string> Examples { get; }

    /// <summary>Every accepted spelling.</summary>
    public IEnumerable<string> Spellings => _exact.Keys;

    /// <summary>The table of a kind.</summary>
    public static UnitTable Of(QuantityKind kind) => Tables[kind].Value;

    /// <summary>The kinds whose units include a spelling.</summary>
    public static IEnumerable<UnitTable> Knowing(string spelling) => Tables.Values
        .Select(t => t.Value)
        .Where(t => t.TryFind(spelling) is not null);

    /// <summary>The unit a spelling without spaces stands for; null when it is none of this kind.</summary>
    public Enum? TryFind(string spelling) => _exact.GetValueOrDefault(spelling) ?? _anyCase.GetValueOrDefault(spelling);

    /// <summary>A figure in a unit as SI.</summary>
    public double ToSi(double figure, Enum unit) => Convert(figure, unit, _si);

    /// <summary>The unit a size is best shown in, and the figure in it.</summary>
    public (double Figure, string Unit) Show(double value, double size, Units units)
    {
        ShownUnit choice = _shown[units].Last(u => Math.Abs(size) >= u.FromSi || u.FromSi == 0);
        return (Convert(value, _si, choice.Unit), choice.Text);
    }

    /// <summary>The size of a difference in the unit that <see cref="Show"/> picks for <paramref name="size"/>.</summary>
    public double ShowDifference(double difference, double size, Units units) =>
        Show(difference, size, units).Figure - Show(0, size, units).Figure;

    // By the quantity itself, since the library's general converter makes the tables of all quantities first.
    private double Convert(double figure, Enum from, Enum to) =>
        ((IQuantity)Activator.CreateInstance(_quantity, figure, from)!).As(to);

    private static Dictionary<QuantityKind, Lazy<UnitTable>> Load() => EmbeddedToml.Read("units.toml").ToDictionary(
        pair => Enum.Parse<QuantityKind>(pair.Key),
        pair => new Lazy<UnitTable>(() => new UnitTable(Enum.Parse<QuantityKind>(pair.Key), (TomlTable)pair.Value)));

    private static Enum Unit(QuantityInfo info, string name) => info.UnitInfos.First(u => u.Name == name).Value;

    private static List<ShownUnit> Shown(QuantityInfo info, TomlArray rows) =>
        [.. rows.Cast<TomlArray>().Select(r => new ShownUnit(Unit(info, (string)r[0]!), (string)r[1]!, (double)r[2]!))];

    private sealed record ShownUnit(Enum Unit, string Text, double FromSi);
}
