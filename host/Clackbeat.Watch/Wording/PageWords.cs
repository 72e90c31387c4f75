using System.Text.Encodings.Web;
using System.Text.Json;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Facts;
using Clackbeat.Words;

namespace Clackbeat.Watch.Wording;

/// <summary>The page's part of the catalogue, every language of it, as the page reads it.</summary>
internal static class PageWords
{
    private const string Table = "page.";

    private static readonly JsonSerializerOptions Readable = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Languages with all of the page's phrases.</summary>
    public static IReadOnlyList<Catalogue> Languages { get; } =
        [.. Catalogue.All.Where(c => c.Phrases.Keys.Any(k => k.StartsWith(Table, StringComparison.Ordinal)))];

    /// <summary>Names of the page's phrases.</summary>
    public static IReadOnlyList<string> Keys { get; } = [.. Catalogue.English.Phrases.Keys
        .Where(k => k.StartsWith(Table, StringComparison.Ordinal)).Select(k => k[Table.Length..]).Order(StringComparer.Ordinal)];

    /// <summary>Facts in each of the page's languages, by the language's code.</summary>
    public static IReadOnlyDictionary<string, IReadOnlyList<string>> Said(IReadOnlyList<Fact> facts) =>
        facts.Count == 0 ? new Dictionary<string, IReadOnlyList<string>>() : Languages.ToDictionary(c => c.Language.Code, c => c.Say(facts));

    /// <summary>A fact in each of the page's languages, by the language's code.</summary>
    public static IReadOnlyDictionary<string, string> Said(Fact fact) => Languages.ToDictionary(c => c.Language.Code, c => c.Say(fact));

    /// <summary><c>words.json</c>: the languages with their decimal signs, the phrases, the dates, and the features of the beat.</summary>
    public static byte[] Json { get; } = JsonSerializer.SerializeToUtf8Bytes(new
    {
        languages = Languages.ToDictionary(c => c.Language.Code, c => new { name = c.Language.Name, @decimal = c.Language.DecimalSign }),
        words = Keys.ToDictionary(k => k, k => Each(Table + k)),
        dates = new { day = Each("dates.day"), months = Enumerable.Range(1, 12).Select(m => Each($"dates.name-{m}")) },
        mostPerCent = FeatureTraits.MostPerCent,
        times = Languages.ToDictionary(c => c.Language.Code, c => c.Phrases["facts.amount-times"].ToString().Replace(":0.#", "", StringComparison.Ordinal)),
        features = Enum.GetValues<Feature>().ToDictionary(f => f.ToString(), f => new
        {
            @as = FeatureTraits.Of(f).As.ToString().ToLowerInvariant(),
            rise = Each($"features.{f}.rise"),
            fall = Each($"features.{f}.fall"),
        }),
    }, Readable);

    private static Dictionary<string, string> Each(string key) => Languages.ToDictionary(c => c.Language.Code, c => c.Phrases[key].ToString());
}
