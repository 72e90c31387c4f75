using System.Globalization;

namespace Clackbeat.Words;

/// <summary>A language's rules for numbers and plurals.</summary>
/// <remarks>
/// Source: Unicode CLDR 46, <c>main/LANGUAGE/numbers.json</c> (decimal sign) and <c>supplemental/plurals.json</c>. The program runs without
/// the system's tables (InvariantGlobalization), so that its output is the same on every machine; hence this small table. Thousands are
/// parted by a narrow no-break space in every language, as the SI Brochure asks (9th edition, 5.4.4): a point or a comma there would be
/// another language's decimal sign.
/// </remarks>
/// <param name="Code">As ISO 639-1 has it.</param>
/// <param name="Name">In the language itself.</param>
/// <param name="DecimalSign">Between units and tenths.</param>
/// <param name="OneUpTo">Numbers under this are singular: 0.5 is plural in English and singular in French.</param>
public sealed record Language(string Code, string Name, char DecimalSign, Func<double, string, bool> OneUpTo)
{
    private const double Million = 1e6;

    /// <summary>All that the table holds.</summary>
    public static IReadOnlyList<Language> All { get; } =
    [
        // one: i = 1 and v = 0, so the text decides: "1" is singular, "1.0" is not.
        new("en", "English", '.', (_, shown) => shown == "1"),
        // one: n = 1
        new("es", "Español", ',', (number, _) => number == 1),
        // one: i = 0,1
        new("fr", "Français", ',', (number, _) => number < 2),
        // one: i = 0..1
        new("pt", "Português", ',', (number, _) => number < 2),
    ];

    /// <summary>The language of a code; null for one that the table lacks.</summary>
    public static Language? Find(string code) => All.FirstOrDefault(l => l.Code == code);

    /// <summary>How a number is written, for .NET's number formats.</summary>
    public NumberFormatInfo Numbers { get; } = new()
    {
        NumberDecimalSeparator = DecimalSign.ToString(),
        PercentDecimalSeparator = DecimalSign.ToString(),
        NumberGroupSeparator = "\u202F",
        PercentGroupSeparator = "\u202F",
    };

    /// <summary>The plural category of a number: <c>one</c>, <c>many</c> (whole millions in the Romance languages) or <c>other</c>.</summary>
    /// <param name="number">The number; its sign doesn't matter.</param>
    /// <param name="shown">As it is written, for English tells "1" from "1.0".</param>
    public string Plural(double number, string shown)
    {
        double size = Math.Abs(number);
        return OneUpTo(size, shown.TrimStart('-', '\u2212')) ? "one"
            : Code != "en" && size >= Million && size % Million == 0 ? "many"
            : "other";
    }
}
