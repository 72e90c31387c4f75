using Clackbeat.Site.Facts;
using Tomlyn.Model;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>A part of the beat, for pointing at it.</summary>
public enum BeatPart
{
    /// <summary>The knock as the waste valve shuts.</summary>
    Closure,

    /// <summary>The plateau while water is delivered.</summary>
    Plateau,

    /// <summary>The fall at the end of the delivery.</summary>
    Fall,

    /// <summary>The suction after it.</summary>
    Recoil,

    /// <summary>The open phase, while the column gains speed.</summary>
    Open,

    /// <summary>The rhythm of many beats.</summary>
    Rhythm,

    /// <summary>The level of the whole record.</summary>
    Level,
}

/// <summary>What a piece of advice promises of the ram.</summary>
/// <param name="Change">Code of the change of the waste valve that is to bring it; null for the repair itself.</param>
/// <param name="Quantity">What changes: rate, drawn, waste, delivered, arrived, peak, plateau, mean or unevenness.</param>
/// <param name="Rises">It is to rise; otherwise to fall.</param>
public sealed record AdvicePromise(string? Change, string Quantity, bool Rises)
{
    /// <summary>Reads "change: quantity up" or "quantity down".</summary>
    internal static AdvicePromise Parse(string text)
    {
        int colon = text.IndexOf(':', StringComparison.Ordinal);
        string[] words = text[(colon + 1)..].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return words is [var quantity, "up" or "down"]
            ? new AdvicePromise(colon < 0 ? null : text[..colon], quantity, words[1] == "up")
            : throw new FormatException($"\"{text}\" is no promise: write \"change: quantity up\" or \"quantity down\".");
    }
}

/// <summary>What belongs to a condition; its name and its advice are phrases of the catalogue.</summary>
/// <param name="Where">The part of the beat that shows it best.</param>
public sealed record ConditionTraits(BeatPart Where)
{
    /// <summary>What the advice promises of each change of the waste valve that it tells to make.</summary>
    public IReadOnlyList<AdvicePromise> Changes { get; private init; } = [];

    /// <summary>What the advice promises of the ram once it is repaired.</summary>
    public IReadOnlyList<AdvicePromise> Repaired { get; private init; } = [];

    /// <summary>Codes of all conditions.</summary>
    public static IReadOnlyCollection<string> Codes => All.Keys;

    private static readonly Dictionary<string, ConditionTraits> All = Read();

    /// <summary>The traits of a condition code.</summary>
    public static ConditionTraits Of(string condition) => All[condition];

    /// <summary>What to look at first and how, the usual repair, and what a fresh recording should then show.</summary>
    public static Fact Advice(string condition) => new("advice." + condition, []);

    /// <summary>The name of a condition, as the end of a sentence.</summary>
    public static Fact Name(string condition) => new("conditions." + condition, []);

    private static Dictionary<string, ConditionTraits> Read() => DiagnosisData.Tables("conditions.toml").ToDictionary(
        t => t.Key,
        t => new ConditionTraits(Enum.Parse<BeatPart>((string)t.Value["where"], ignoreCase: true))
        {
            Changes = Promises(t.Value, "changes"),
            Repaired = Promises(t.Value, "repaired"),
        },
        StringComparer.Ordinal);

    private static IReadOnlyList<AdvicePromise> Promises(TomlTable table, string key) =>
        table.TryGetValue(key, out object? list) ? [.. ((TomlArray)list).OfType<string>().Select(AdvicePromise.Parse)] : [];
}
