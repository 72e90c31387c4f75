using System.Text.RegularExpressions;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Facts;

namespace Clackbeat.Words.Tests;

/// <summary>The phrases themselves: each language's file beside the English one.</summary>
public sealed partial class CatalogueTests
{
    // The same word in two languages: units and names of materials.
    private static readonly string[] Alike =
    [
        "rating.bar-psi", "plots.1000-gal", "plots.bar-beyond-short", "materials.PvcU", "materials.PvcO", "materials.Abs",
        "page.prefs.units.metric", "page.prefs.units.us", "page.age.minutes", "report.points", "plan.turbine-short",
    ];

    public static TheoryData<string> Others => [.. Catalogue.All.Where(c => c != Catalogue.English).Select(c => c.Language.Code)];

    [Fact]
    public void English_comes_first_and_Spanish_is_there() => Assert.Equal(["en", "es"], Catalogue.All.Select(c => c.Language.Code).Take(2));

    [Theory]
    [MemberData(nameof(Others))]
    public void A_language_has_every_phrase_and_none_that_English_lacks(string language)
    {
        Catalogue other = Of(language);
        Assert.Empty(other.Phrases.Keys.Except(Catalogue.English.Phrases.Keys));
        Assert.Empty(Catalogue.English.Phrases.Keys.Except(other.Phrases.Keys));
    }

    [Theory]
    [MemberData(nameof(Others))]
    public void No_phrase_is_left_in_English(string language) => Assert.Empty(Of(language).Phrases
        .Where(p => p.Value.ToString() == Catalogue.English.Phrases[p.Key].ToString() && !IsAlike(p.Key, p.Value.ToString()))
        .Select(p => $"{p.Key}: {p.Value}"));

    [Theory]
    [MemberData(nameof(Others))]
    public void A_phrase_has_the_same_places_in_every_language(string language) => Assert.All(
        Of(language).Phrases,
        p => Assert.Equal(Catalogue.English.Phrases[p.Key].Places.Order(StringComparer.Ordinal), p.Value.Places.Order(StringComparer.Ordinal)));

    [Fact]
    public void No_phrase_is_empty_and_plurals_have_the_forms_of_the_language() => Assert.All(Catalogue.All, catalogue => Assert.All(catalogue.Phrases, p =>
    {
        Assert.NotEmpty(p.Value.ToString());
        string[] known = catalogue.Language.Code == "en" ? ["one", "other"] : ["one", "many", "other"];
        Assert.All(p.Value.Forms, forms =>
        {
            Assert.Superset(new HashSet<string> { "one", "other" }, forms.ToHashSet());
            Assert.Subset(known.ToHashSet(), forms.ToHashSet());
        });
        Assert.DoesNotContain('|', catalogue.Say(new Fact(p.Key, [])));
    }));

    [Fact]
    public void Every_condition_has_a_name_and_advice_and_every_feature_its_phrases()
    {
        Assert.Equal(
            ConditionTraits.Codes.Order(StringComparer.Ordinal),
            Keys("conditions.").Order(StringComparer.Ordinal));
        Assert.Equal(
            ConditionTraits.Codes.Concat(["healthy-doubtful", "healthy-beside-pipe"]).Order(StringComparer.Ordinal),
            Keys("advice.").Where(k => !k.Contains('.', StringComparison.Ordinal)).Order(StringComparer.Ordinal));
        Assert.Equal(
            Enum.GetNames<Feature>().SelectMany(f => new[] { f + ".rise", f + ".fall" }).Order(StringComparer.Ordinal),
            Keys("features.").Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Every_feature_is_told_with_its_change_and_every_advice_on_a_fault_with_its_caution()
    {
        foreach (Feature feature in Enum.GetValues<Feature>())
        {
            string told = Catalogue.English.Say(FeatureTraits.Of(feature).Changed(0.1, hasBaseline: true));
            Assert.EndsWith("compared with when the ram was well).", told, StringComparison.Ordinal);
            Assert.StartsWith(Catalogue.English.Say($"features.{feature}.rise"), told, StringComparison.Ordinal);
        }

        Assert.All(ConditionTraits.Codes.Where(c => c != Conditions.Healthy), c => Assert.Contains("pressure", Catalogue.English.Say(ConditionTraits.Advice(c)), StringComparison.Ordinal));
    }

    [Fact]
    public void The_advice_on_a_fault_is_its_parts_one_after_the_other_in_every_language() => Assert.All(Catalogue.All, catalogue => Assert.All(
        ConditionTraits.Codes.Where(c => c != Conditions.Healthy),
        code =>
        {
            IReadOnlyList<(string Part, string Text)> parts = catalogue.AdviceParts(code);
            Assert.Superset(new HashSet<string> { "check", "caution", "repair", "after" }, parts.Select(p => p.Part).ToHashSet());
            Assert.Equal(string.Join(' ', parts.Select(p => p.Text)), catalogue.Say(ConditionTraits.Advice(code)));
        }));

    [Fact]
    public void Changes_are_told_in_plain_numbers()
    {
        // ln 1.10 is ten per cent more, ln 5 five times as much; 0.05 of the jump is five per cent of it.
        Assert.Contains("(by 10 %, ", Told(Feature.Interval, Math.Log(1.1)), StringComparison.Ordinal);
        Assert.Contains("(5 times as much, ", Told(Feature.Interval, Math.Log(5)), StringComparison.Ordinal);
        Assert.Contains("(by 5 % of the rise from open to delivery, ", Told(Feature.Slope, 0.05), StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", Told(Feature.Echo, -5), StringComparison.Ordinal);
    }

    [Fact]
    public void A_share_is_shown_in_per_cent_and_a_fact_without_a_phrase_with_its_values()
    {
        Assert.StartsWith("At rest the body stands at 142 % of the supply head.", Catalogue.English.Say(Fact.Of("rest-above-supply", ("head_share", 1.42))), StringComparison.Ordinal);
        Assert.Equal("never-heard-of: depth_m 1.5, what mud.", Catalogue.English.Say("never-heard-of", ("depth_m", 1.5), ("what", "mud")));
        Assert.Equal("the ram is well", Catalogue.English.Condition("healthy"));
        Assert.Equal("under water", Catalogue.English.Condition("under-water"));
    }

    [Fact]
    public void A_value_that_is_missing_is_named_and_nothing_else_is_lost() =>
        Assert.Equal("The last (frozen_s) s hold one value. A working sensor always varies a little.", Catalogue.English.Say("sensor-frozen"));

    private static string Told(Feature feature, double change) => Catalogue.English.Say(FeatureTraits.Of(feature).Changed(change, hasBaseline: false));

    // A name, a unit or a number reads alike in two languages; two words in a row don't.
    private static bool IsAlike(string key, string text) => Alike.Contains(key) || !Words().IsMatch(Place().Replace(text, " "));

    private static Catalogue Of(string language) => Catalogue.All.Single(c => c.Language.Code == language);

    private static IEnumerable<string> Keys(string table) =>
        Catalogue.English.Phrases.Keys.Where(k => k.StartsWith(table, StringComparison.Ordinal)).Select(k => k[table.Length..]);

    [GeneratedRegex(@"\{[^}]*\}")]
    private static partial Regex Place();

    [GeneratedRegex(@"\p{L}{3,}")]
    private static partial Regex Words();
}
