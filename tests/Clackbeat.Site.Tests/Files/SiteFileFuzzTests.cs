using Clackbeat.Site.Check;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using CsCheck;

namespace Clackbeat.Site.Tests.Files;

/// <summary>Whatever the text, a site file either loads or says what is wrong; nothing else ever happens.</summary>
public class SiteFileFuzzTests
{
    private static readonly string[] Pieces =
    [
        "[site]", "[supply]", "[[fitting]]", "[drive_pipe", "]", "name", "head", "=", "\"", "\"\"\"", "'", "{", "}", "[", ",", ".",
        "\n", "\r\n", "#", "2.5 m", "1e999", "0x1F", "1979-05-27T07:32:00Z", "true", "\\u00B0", "\\uD800", "\uFEFF", "\t", "−", "½",
    ];

    [Fact]
    public void Pieces_of_TOML_in_any_order() =>
        Gen.OneOf(Pieces).Array[0, 40].Select(string.Concat).Sample(LoadsOrExplains, iter: 4000);

    [Fact]
    public void Any_characters() => Gen.String[0, 200].Sample(LoadsOrExplains, iter: 2000);

    [Fact]
    public void A_valid_file_with_one_place_changed()
    {
        string? template = SiteTemplate.Text(Units.Metric);
        Gen.Select(Gen.Int[0, template.Length - 1], Gen.Int[0, 30], Gen.OneOf(Pieces))
            .Select((at, gone, piece) => template[..at] + piece + template[Math.Min(template.Length, at + gone)..])
            .Sample(LoadsOrExplains, iter: 1000);
    }

    [Fact]
    public void Any_text_is_a_quantity_or_none() => Gen.Select(
            Gen.Enum<QuantityKind>(),
            Gen.OneOf(
                Gen.String[0, 150],
                Gen.OneOf("1", "-", "/", "0", ".", "e9", " ", "ft", "in", "m", "to", "°F", "bar", "'", "\"").Array[0, 12].Select(string.Concat)))
        .Sample(
            (kind, text) =>
            {
                bool read = QuantityText.TryParse(kind, text, out double value, out Fact? problem);
                _ = QuantityText.TryParseRange(kind, text, out _, out _, out _);
                return read == (problem is null) && double.IsFinite(value);
            },
            iter: 5000);

    // A parser that calls itself for each bracket runs out of stack, which can't be caught and ends the program.
    [Theory]
    [InlineData("a = ", "[")]
    [InlineData("a = ", "{b=")]
    [InlineData("[", "a.")]
    [InlineData("a", ".a")]
    public void Endless_nesting_is_refused(string start, string again)
    {
        SiteReading reading = SiteFile.ReadText(start + string.Concat(Enumerable.Repeat(again, 50_000)), "any.toml");
        Assert.NotEmpty(reading.Problems);
    }

    // Each of these took minutes to hours when every mistake was told, or a line was searched from each of its letters.
    [Theory]
    [InlineData("a = b", " ", "\"")]
    [InlineData("", "[t]\nk = 1\n", "")]
    [InlineData("[supply]\n", "k\u0065y = 1\n", "")]
    [InlineData("", "[[fitting]]\nnote = 1\n", "")]
    [InlineData("[supply]\n\"", "hea", "\" = 1")]
    public void A_large_file_of_mistakes_is_told_in_seconds(string start, string again, string end)
    {
        IEnumerable<string> numbered = Enumerable.Range(0, 200_000 / again.Length).Select(i => again.Length > 4 ? again.Replace("k", $"k{i}", StringComparison.Ordinal) : again);
        string? text = start + string.Concat(numbered) + end;
        var clock = System.Diagnostics.Stopwatch.StartNew();
        SiteReading reading = SiteFile.ReadText(text[..Math.Min(text.Length, 200_000)], "any.toml");
        Assert.InRange(reading.Problems.Count, 1, 200);
        Assert.True(clock.Elapsed < TimeSpan.FromSeconds(20), $"{clock.Elapsed}");
    }

    private static bool LoadsOrExplains(string text)
    {
        SiteReading reading = SiteFile.ReadText(text, "any.toml");
        var check = SiteCheck.Of(reading);
        return check.Problems.All(p => Catalogue.English.Say(p.What).Length > 0 && (p.Line ?? 1) >= 1)
            && (reading.Problems.Count > 0 || reading.SiteOrThrow() is not null);
    }
}
