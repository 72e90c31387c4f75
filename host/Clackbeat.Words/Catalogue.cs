using System.Collections.Frozen;
using System.Globalization;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;
using Tomlyn;
using Tomlyn.Model;

namespace Clackbeat.Words;

/// <summary>
/// All that the program says in one language: the one place where a code with values becomes a sentence. The phrases stand in
/// <c>Languages/CODE.toml</c>, one file a language, by table and key.
/// </summary>
public sealed class Catalogue
{
    private const string Facts = "facts.";

    // Advice stands in the catalogue in parts: a guide sets them apart, a report says them one after the other.
    private const string Advice = "advice.";

    // Before a format: the number as a file wants it, in every language.
    private const char ForFiles = '!';

    // The format of facts that stand one below the other.
    private const string Lines = "lines";

    // Thousands parted, and as many decimals as there are.
    private const string Plain = "#,0.######";

    private static readonly FrozenDictionary<string, Catalogue> Languages = typeof(Catalogue).Assembly.GetManifestResourceNames()
        .Where(name => name.EndsWith(".toml", StringComparison.Ordinal))
        .GroupBy(name => name[..name.IndexOf('.', StringComparison.Ordinal)])
        .Select(files => new Catalogue(Language.Find(files.Key) ?? throw new InvalidOperationException($"{files.Key} is a language without rules."), files))
        .ToFrozenDictionary(c => c.Language.Code);

    private static readonly AsyncLocal<Catalogue?> Chosen = new();

    // Read when first asked for: a command speaks one language.
    private readonly Lazy<Dictionary<string, Phrase>> _phrases;

    // What an exception tells is said where a catalogue is at hand, which is everywhere but in tests of single rooms.
    static Catalogue() => ExceptionText.Say = fact => Current.Say(fact);

    private Catalogue(Language language, IEnumerable<string> files)
    {
        Language = language;
        string[] names = [.. files];
        _phrases = new(() => Joined([.. names.SelectMany(Read)]).ToDictionary(p => p.Key, p => new Phrase(p.Text), StringComparer.Ordinal));
    }

    /// <summary>English, which is complete.</summary>
    public static Catalogue English { get; } = Languages["en"];

    /// <summary>The language that is spoken where this is asked; English until <see cref="Use"/> chose another.</summary>
    /// <remarks>It follows the flow of control, as .NET's own CurrentUICulture does. JSON and files for programs don't ask for it.</remarks>
    public static Catalogue Current => Chosen.Value ?? English;

    /// <summary>One for each language that has a file, English first.</summary>
    public static IReadOnlyList<Catalogue> All { get; } = [.. Languages.Values.OrderBy(c => c.Language.Code != "en").ThenBy(c => c.Language.Code, StringComparer.Ordinal)];

    /// <summary>Its language.</summary>
    public Language Language { get; }

    /// <summary>Begins to read its phrases on another thread, for a command that works before it speaks.</summary>
    public void ReadAhead()
    {
        if (!_phrases.IsValueCreated)
        {
            Task.Run(() => _phrases.Value);
        }
    }

    /// <summary>Every phrase by table and key, as <c>facts.few-beats</c>.</summary>
    public IReadOnlyDictionary<string, Phrase> Phrases => _phrases.Value;

    /// <summary>The catalogue of a language; null where it has no file.</summary>
    /// <param name="code">As ISO 639-1 has it.</param>
    public static Catalogue? Find(string code) => Languages.GetValueOrDefault(code);

    /// <summary>Speaks a language until what is returned is disposed of.</summary>
    /// <param name="catalogue">The language.</param>
    public static IDisposable Use(Catalogue catalogue)
    {
        var before = new Before(Chosen.Value);
        Chosen.Value = catalogue;
        return before;
    }

    /// <summary>The sentence of a fact. A code without one is shown as it is, with its values: nothing is kept from a reader.</summary>
    public string Say(Fact fact)
    {
        ArgumentNullException.ThrowIfNull(fact);
        return PhraseOf(fact.Code) is { } phrase
            ? phrase.Fill(fact, this)
            : $"{fact.Code}: {string.Join(", ", fact.Values.Select(v => $"{v.Name} {Show(v, "")}"))}.";
    }

    /// <summary>A phrase of the catalogue, with its values.</summary>
    /// <param name="key">Table and key, as <c>conditions.healthy</c>, or the code of a fact.</param>
    /// <param name="values">Names and values.</param>
    public string Say(string key, params FactValue[] values) => Say(new Fact(key, values));

    /// <summary>A phrase in pieces, for a reader who writes some of its values in their own way.</summary>
    /// <param name="key">As in <see cref="Say(string, FactValue[])"/>.</param>
    /// <param name="values">Values that become words; every other place stays one.</param>
    public IReadOnlyList<PhrasePiece> Cut(string key, params IReadOnlyList<FactValue> values) =>
        PhraseOf(key) is { } phrase ? [.. phrase.Cut(values, this)] : [new PhrasePiece(Say(new Fact(key, [.. values])), null)];

    /// <summary>The sentences of some facts.</summary>
    public IReadOnlyList<string> Say(IEnumerable<Fact> facts) => [.. facts.Select(Say)];

    /// <summary>What a record lost in one line, or that it is complete.</summary>
    public string Completeness(IEnumerable<Fact> losses) => string.Join("; ", Say(losses)) is { Length: > 0 } told ? told : Say("complete");

    /// <summary>The parts of the advice on a condition, in the order in which they are said: <c>check</c>, <c>caution</c>, <c>repair</c> and such.</summary>
    /// <param name="condition">The condition; a fault or a stop.</param>
    public IReadOnlyList<(string Part, string Text)> AdviceParts(string condition)
    {
        string start = $"{Advice}{condition}.";
        string whole = Say($"{Advice}{condition}");
        return [.. Phrases.Where(p => p.Key.StartsWith(start, StringComparison.Ordinal)).Select(p => (Part: p.Key[start.Length..], Text: p.Value.ToString()))
            .OrderBy(p => whole.IndexOf(p.Text, StringComparison.Ordinal))];
    }

    /// <summary>The name of a condition, as the end of a sentence; its code where it has none.</summary>
    public string Condition(string code) => PhraseOf("conditions." + code)?.ToString() ?? code.Replace('-', ' ');

    private static IEnumerable<(string Key, string Text)> Read(string file)
    {
        using Stream stream = typeof(Catalogue).Assembly.GetManifestResourceStream(file)!;
        using var reader = new StreamReader(stream);
        return Flat("", TomlSerializer.Deserialize<TomlTable>(reader.ReadToEnd())!).ToList();
    }

    // Under the table's own name all of its parts, in the order of the file.
    private static IEnumerable<(string Key, string Text)> Joined(IReadOnlyList<(string Key, string Text)> phrases) => phrases.Concat(phrases
        .Where(p => p.Key.StartsWith(Advice, StringComparison.Ordinal) && p.Key.IndexOf('.', Advice.Length) > 0)
        .GroupBy(p => p.Key[..p.Key.IndexOf('.', Advice.Length)])
        .Select(parts => (parts.Key, string.Join(' ', parts.Select(p => p.Text)))));

    private Phrase? PhraseOf(string code) => _phrases.Value.GetValueOrDefault(code.Contains('.', StringComparison.Ordinal) ? code : Facts + code);

    internal string Show(FactValue value, string format) => value switch
    {
        { Quantity: Quantity { High: { } high } range } => Range(range, high),
        { Quantity: Quantity quantity } => Decimal(QuantityFormat.Format(quantity.Kind, quantity.Value, quantity.Units, quantity.Digits)),
        { Number: { } number } => format.StartsWith(ForFiles)
            ? number.ToString(format[1..], CultureInfo.InvariantCulture)
            : number.ToString(format.Length > 0 ? format : Plain, Language.Numbers),
        { Facts: { } facts } => string.Join(format == Lines ? "\n" : ", ", Say(facts)),
        { Likelihoods: { } likelihoods } => string.Join("; ", likelihoods.Select(l =>
            Say("likelihood", ("condition", Condition(l.Condition)), ("probability", 100 * l.Probability)))),
        _ => value.Word ?? "",
    };

    private string Range(Quantity range, double high)
    {
        (string low, string top, string unit) = QuantityFormat.RangeParts(range.Kind, range.Value, high, range.Units, range.Digits);
        return Say("numbers.range", ("low", Decimal(low)), ("high", Decimal(top)), ("unit", unit));
    }

    // A figure that is written already, with the decimal sign of the language.
    private string Decimal(string figure) => figure.Replace('.', Language.DecimalSign);

    private static IEnumerable<(string Key, string Text)> Flat(string before, TomlTable table) => table.SelectMany(entry => entry.Value switch
    {
        TomlTable inner => Flat($"{before}{entry.Key}.", inner),
        var text => [($"{before}{entry.Key}", (string)text)],
    });

    private sealed class Before(Catalogue? catalogue) : IDisposable
    {
        public void Dispose() => Chosen.Value = catalogue;
    }
}
