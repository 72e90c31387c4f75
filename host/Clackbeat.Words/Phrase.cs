using System.Text.RegularExpressions;
using Clackbeat.Site.Facts;

namespace Clackbeat.Words;

/// <summary>
/// A phrase with places for values. <c>{name}</c> stands for a value; <c>{name:format}</c> writes a number in a .NET format (<c>0 %</c> shows a
/// share in per cent); <c>{name?one:beat|other:beats}</c> chooses words by the number's plural category, where a missing category means
/// <c>other</c>.
/// </summary>
public sealed partial class Phrase
{
    private const string Other = "other";

    private readonly string _text;

    // A language has two thousand phrases and a command says some dozens of them, so each is looked through when it is first said.
    private readonly Lazy<Match[]> _places;

    internal Phrase(string text)
    {
        _text = text;
        _places = new(() => [.. Place().Matches(text).OfType<Match>()]);
    }

    /// <summary>The phrase as its file has it.</summary>
    public override string ToString() => _text;

    /// <summary>Names of the values it needs.</summary>
    public IReadOnlyList<string> Places => [.. _places.Value.Select(p => p.Groups["name"].Value).Distinct(StringComparer.Ordinal)];

    /// <summary>The plural categories of each place that has some.</summary>
    internal IReadOnlyList<IReadOnlySet<string>> Forms =>
        [.. _places.Value.Where(p => p.Groups["forms"].Success).Select(p => (IReadOnlySet<string>)FormsOf(p.Groups["forms"].Value).Keys.ToHashSet())];

    /// <summary>The phrase with its values; a value that is missing shows as its name in brackets.</summary>
    internal string Fill(Fact fact, Catalogue catalogue) =>
        string.Concat(Cut(fact.Values, catalogue).Select(piece => piece.Words ?? $"({piece.Place})"));

    /// <summary>The phrase in pieces; the place of a value that is missing stays one.</summary>
    internal IEnumerable<PhrasePiece> Cut(IReadOnlyList<FactValue> values, Catalogue catalogue)
    {
        int at = 0;
        foreach (Match place in _places.Value)
        {
            if (place.Index > at)
            {
                yield return new PhrasePiece(_text[at..place.Index], null);
            }

            at = place.Index + place.Length;
            yield return Filled(place, values, catalogue);
        }

        if (at < _text.Length)
        {
            yield return new PhrasePiece(_text[at..], null);
        }
    }

    private PhrasePiece Filled(Match place, IReadOnlyList<FactValue> values, Catalogue catalogue)
    {
        string name = place.Groups["name"].Value;
        if (values.FirstOrDefault(v => v.Name == name) is not { } value)
        {
            return new PhrasePiece(null, name);
        }

        // A format stands at one of a value's places and holds for all of them.
        string format = new[] { place }.Concat(_places.Value.Where(p => p.Groups["name"].Value == name))
            .FirstOrDefault(p => p.Groups["format"].Success)?.Groups["format"].Value ?? "";
        string shown = catalogue.Show(value, format);
        return new PhrasePiece(place.Groups["forms"].Success ? Form(place.Groups["forms"].Value, value.Number ?? 0, shown, catalogue.Language) : shown, null);
    }

    private static string Form(string forms, double number, string shown, Language language)
    {
        Dictionary<string, string> all = FormsOf(forms);
        return all.TryGetValue(language.Plural(number, shown), out string? form) ? form : all.GetValueOrDefault(Other, "");
    }

    private static Dictionary<string, string> FormsOf(string forms) => forms.Split('|')
        .Select(form => form.Split(':', 2))
        .ToDictionary(form => form[0], form => form.Length > 1 ? form[1] : "", StringComparer.Ordinal);

    [GeneratedRegex(@"\{(?<name>[A-Za-z0-9_]+)(?:\?(?<forms>[^}]+)|:(?<format>[^}]+))?\}", RegexOptions.ExplicitCapture)]
    private static partial Regex Place();
}
