namespace Clackbeat.Acceptance;

/// <summary>What <c>--language</c> changes, and what it leaves alone.</summary>
public sealed class LanguageTests : IDisposable
{
    private const string Site = """
        site.name = "PVC"
        supply = { head = "3 m" }
        drive_pipe = { material = "PVC-U", length = "12 m", bore = "1.610 in", wall = "0.145 in", class = "Schedule 40", threaded = false }
        delivery.head = "18 m"
        sensor.range = "-1 bar to 16 bar"
        """;

    private readonly TemporaryFolder _folder = new();

    public LanguageTests() => File.WriteAllText(_folder["ram.toml"], Site);

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("en", "OVER the pipe's limit.", "27.6 bar")]
    [InlineData("es", "POR ENCIMA del límite de la tubería.", "27,6 bar")]
    [InlineData("fr", "AU-DESSUS de la limite de la conduite.", "27,6 bar")]
    [InlineData("pt", "ACIMA do limite do tubo.", "27,6 bar")]
    public void A_result_is_in_the_language_that_was_asked_for_with_its_decimal_sign(string language, string verdict, string peak)
    {
        Outcome said = Rating("--language", language);
        Assert.Contains(verdict, said.Out, StringComparison.Ordinal);
        Assert.Contains(peak, said.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void JSON_is_the_same_in_every_language() =>
        Assert.Equal(Rating("--json").Out, Rating("--json", "--language", "es").Out);

    [Fact]
    public void A_language_that_is_not_there_is_a_mistake_that_names_those_that_are()
    {
        Outcome said = Rating("--language", "xx");
        Assert.Equal(2, said.ExitCode);
        Assert.Contains("en, es", said.Error, StringComparison.Ordinal);
    }

    // 400 psi are 27.58 bar.
    private Outcome Rating(params string[] more) =>
        Outcome.Of(["rating", "--site", _folder["ram.toml"], "--peak", "400 psi", "--trough", "0 kPa", "--beats-per-min", "50", .. more]);
}
