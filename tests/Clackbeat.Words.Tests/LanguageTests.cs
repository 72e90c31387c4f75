using Clackbeat.Site.Facts;

namespace Clackbeat.Words.Tests;

/// <summary>
/// Plurals and numbers by the rules of the Unicode CLDR (release 46): the samples are those that <c>plurals.json</c> names for each category,
/// the decimal signs those of <c>numbers.json</c>.
/// </summary>
public sealed class LanguageTests
{
    [Theory]
    [InlineData("en", 1, "1", "one")]
    [InlineData("en", 1, "1.0", "other")]
    [InlineData("en", 0, "0", "other")]
    [InlineData("en", 0.5, "0.5", "other")]
    [InlineData("en", 2, "2", "other")]
    [InlineData("en", 1_000_000, "1000000", "other")]
    [InlineData("es", 1, "1", "one")]
    [InlineData("es", 1, "1,0", "one")]
    [InlineData("es", 0, "0", "other")]
    [InlineData("es", 1_000_000, "1000000", "many")]
    [InlineData("es", 16, "16", "other")]
    [InlineData("fr", 0, "0", "one")]
    [InlineData("fr", 1.5, "1,5", "one")]
    [InlineData("fr", 2, "2", "other")]
    [InlineData("fr", 1_000_000, "1000000", "many")]
    [InlineData("pt", 0, "0", "one")]
    [InlineData("pt", 1.5, "1,5", "one")]
    [InlineData("pt", 2, "2", "other")]
    [InlineData("pt", 2_000_000, "2000000", "many")]
    public void A_number_has_the_plural_category_of_the_language(string language, double number, string shown, string category) =>
        Assert.Equal(category, Language.Find(language)!.Plural(number, shown));

    [Theory]
    [InlineData("en", "1\u202F234.5")]
    [InlineData("es", "1\u202F234,5")]
    [InlineData("fr", "1\u202F234,5")]
    [InlineData("pt", "1\u202F234,5")]
    public void A_number_has_the_decimal_sign_of_the_language_and_thin_spaces_between_thousands(string language, string written) =>
        Assert.Equal(written, 1234.5.ToString("#,0.0", Language.Find(language)!.Numbers));

    [Fact]
    public void A_phrase_takes_the_plural_of_its_number_and_the_numbers_of_its_language()
    {
        Assert.Equal("1 standard deviation", Catalogue.English.Say("size-deviations", ("deviations", 1)));
        Assert.Equal("2 standard deviations", Catalogue.English.Say("size-deviations", ("deviations", 2)));
        Assert.StartsWith("La presión media es -1,5 kPa;", Catalogue.All.Single(c => c.Language.Code == "es").Say("sensor-mean-wrong", ("mean_kpa", -1.5), ("supply_kpa", 20.0)), StringComparison.Ordinal);
    }
}
