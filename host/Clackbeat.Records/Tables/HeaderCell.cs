using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Records.Tables;

/// <summary>What the head of a column says: its name, its unit, and whether a pressure counts from vacuum or from the air.</summary>
/// <param name="Text">As it stands in the file.</param>
/// <param name="Name">Words of its name, in lower case, without unit.</param>
/// <param name="TimeUnit">Unit of time that it names; null for none.</param>
/// <param name="PressureUnit">Unit of pressure that it names; null for none.</param>
/// <param name="IsAbsolute">True for absolute, false for gauge, null where it doesn't say.</param>
internal sealed partial record HeaderCell(string Text, IReadOnlyList<string> Name, string? TimeUnit, string? PressureUnit, bool? IsAbsolute)
{
    private static readonly HashSet<string> TimeNames =
        ["t", "time", "elapsed", "zeit", "tiempo", "temps", "tempo", "clock", "seconds", "timestamp", "datetime", "date", "utc", "uhrzeit", "hora"];

    private static readonly HashSet<string> CalendarNames = ["timestamp", "datetime", "date", "utc"];

    private static readonly HashSet<string> PressureNames =
    [
        "p", "pressure", "press", "pres", "druck", "presion", "presión", "pression", "pressao", "pressão", "body", "level", "head", "pegel", "water",
    ];

    // What units.toml leaves out because nobody writes it behind a number.
    private static readonly Dictionary<string, string> LongTimes = new(StringComparer.OrdinalIgnoreCase)
    {
        ["msec"] = "ms",
        ["millis"] = "ms",
        ["millisecond"] = "ms",
        ["milliseconds"] = "ms",
        ["usec"] = "us",
        ["microseconds"] = "us",
    };

    /// <summary>Its name is one of a time.</summary>
    public bool IsNamedTime => Name.Any(TimeNames.Contains) || IsDayFraction;

    /// <summary>Its name is one of a date rather than of a time that went by.</summary>
    public bool IsNamedCalendar => Name.Any(CalendarNames.Contains);

    /// <summary>
    /// It can hold the pressure: by its name, or by a unit that only pressures have. A bare length is a height of water where the name
    /// says so; a stroke in mm isn't one.
    /// </summary>
    public bool MayBePressure => TimeUnit is null && (Name.Any(PressureNames.Contains) || PressureUnit is { } unit && !IsLength(unit));

    private bool IsDayFraction => Name.Contains("fraction");

    /// <summary>Reads the head of a column.</summary>
    public static HeaderCell Read(string text)
    {
        (string name, string? unit) = Split(text.Trim());
        bool? absolute = null;
        if (unit is not null && TakeReference(ref unit) is { } said)
        {
            absolute = said;
        }

        List<string> words = Words(name);
        if (words.Count > 1 && Reference(words[^1]) is { } tail)
        {
            (absolute, name) = (tail, name[..name.LastIndexOf(words[^1], StringComparison.OrdinalIgnoreCase)].TrimEnd('_', ' ', '-', '.'));
            words = Words(name);
        }

        if (unit is null && words.Count > 0)
        {
            // The unit may end the name: p_mbar, "time ms".
            string last = LastWord(name);
            unit = last;
            bool? told = TakeReference(ref unit);
            bool isUnit = TimeUnitOf(unit) is not null || PressureUnitOf(unit) is not null;
            (absolute, unit) = isUnit ? (told ?? absolute, unit) : (absolute, null);
            words = isUnit && words.Count > 1 ? words[..^1] : words;
        }

        if (words.Contains("day") && words.Contains("fraction"))
        {
            unit = "day";
        }

        return new HeaderCell(text, words, unit is null ? null : TimeUnitOf(unit), unit is null ? null : PressureUnitOf(unit), absolute);
    }

    /// <summary>A unit of time spelt so; null for none.</summary>
    public static string? TimeUnitOf(string text) =>
        LongTimes.TryGetValue(text, out string? known) ? known : QuantityText.IsUnit(QuantityKind.Duration, text) ? text : null;

    /// <summary>A unit of pressure spelt so; null for none. "mpa" could be two and is taken for neither.</summary>
    public static string? PressureUnitOf(string text) => text is "mpa" or "MPA" or "Mpa" ? null
        : text is "mm" or "in" || QuantityText.IsUnit(QuantityKind.Pressure, text) ? text : null;

    private static bool IsLength(string unit) => unit is "mm" or "in" || QuantityText.IsUnit(QuantityKind.Length, unit);

    // "Pressure [bar]", "level (cm)", "p / kPa" (the way of ISO 80000-1), "pressure in bar".
    private static (string Name, string? Unit) Split(string text)
    {
        Match bracket = Bracketed().Match(text);
        if (!bracket.Success)
        {
            bracket = Divided().Match(text);
        }

        return bracket.Success ? (bracket.Groups["name"].Value, bracket.Groups["unit"].Value.Trim()) : (text, null);
    }

    // bara, psig, kPa(a), "bar abs": the unit without its reference, and what the reference said.
    private static bool? TakeReference(ref string unit)
    {
        Match tail = ReferenceTail().Match(unit);
        if (!tail.Success || PressureUnitOf(tail.Groups["unit"].Value) is null || (PressureUnitOf(unit) is not null && !unit.EndsWith('g') && !unit.EndsWith(')')))
        {
            return null;
        }

        unit = tail.Groups["unit"].Value;
        return Reference(tail.Groups["said"].Value);
    }

    private static bool? Reference(string word) => word.ToUpperInvariant() switch
    {
        "A" or "ABS" or "ABSOLUTE" or "ABSOLUT" => true,
        "G" or "GAUGE" or "REL" => false,
        _ => null,
    };

    private static List<string> Words(string name) => [.. NotWord().Split(name.ToLower(CultureInfo.InvariantCulture)).Where(w => w.Length > 0)];

    private static string LastWord(string name)
    {
        var word = new StringBuilder();
        for (int i = name.Length - 1; i >= 0 && name[i] is not ('_' or ' ' or '-' or '.'); i--)
        {
            word.Insert(0, name[i]);
        }

        return word.ToString();
    }

    [GeneratedRegex(@"^(?<name>.*?)[\s_]*[\[\(](?<unit>[^\[\]]*?)[\]\)]\s*$")]
    private static partial Regex Bracketed();

    [GeneratedRegex(@"^(?<name>.*\S)\s*(/|\sin\s)\s*(?<unit>\S+(\s?(abs|gauge))?)$")]
    private static partial Regex Divided();

    [GeneratedRegex(@"^(?<unit>.+?)[\s_\(]*(?<said>abs|absolute|absolut|gauge|rel|a|g)\)?$", RegexOptions.IgnoreCase)]
    private static partial Regex ReferenceTail();

    [GeneratedRegex(@"[^\p{L}]+")]
    private static partial Regex NotWord();
}
