using System.Text.Json;

namespace Clackbeat.Acceptance;

public sealed class RatingCommandTests : IDisposable
{
    // PVC 1120 Schedule 40, 1-1/2 in: OD 1.900 in, wall 0.145 in, 330 psi at 73 °F (Machinery's Handbook 31, Table 13).
    private const string Pvc = """
        site.name = "PVC"
        supply = { head = "3 m", water_temperature = "73 °F" }
        drive_pipe = { material = "PVC-U", length = "12 m", bore = "1.610 in", wall = "0.145 in", class = "Schedule 40", threaded = false }
        delivery.head = "18 m"
        sensor.range = "-1 bar to 16 bar"
        """;

    private readonly TemporaryFolder folder = new();

    public RatingCommandTests() => File.WriteAllText(folder["pvc.toml"], Pvc);

    public void Dispose() => folder.Dispose();

    [Fact]
    public void The_rating_is_the_tables_and_the_verdict_follows_the_peak()
    {
        using var within = Rating("--peak", "50 psi", "--trough", "0 kPa", "--beats-per-min", "50");
        // 330 psi = 2275 kPa; a table rounds to the nearest 10 psi.
        Assert.InRange(within.RootElement.GetProperty("rated_kpa").GetDouble(), 325 * 6.894757, 335 * 6.894757);
        Assert.Equal(50 * 6.894757, within.RootElement.GetProperty("peak_kpa").GetDouble(), 0.01);

        using var over = Rating("--peak", "400 psi", "--trough", "0 kPa", "--beats-per-min", "50");
        Assert.Equal("over", over.RootElement.GetProperty("verdict").GetString());
        Assert.Equal("within", within.RootElement.GetProperty("pressure_verdict").GetString());
    }

    [Fact]
    public void A_verdict_that_fatigue_decides_names_fatigue_as_its_rule()
    {
        using var rating = Rating("--peak", "100 psi", "--trough", "0 kPa", "--beats-per-min", "60");
        Assert.Equal("within", rating.RootElement.GetProperty("pressure_verdict").GetString());
        Assert.Equal("over", rating.RootElement.GetProperty("verdict").GetString());
        Assert.StartsWith("Fatigue of PVC-U", rating.RootElement.GetProperty("rule").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_peak_there_is_no_verdict()
    {
        using var unknown = Rating();
        Assert.Equal("unknown", unknown.RootElement.GetProperty("verdict").GetString());
        Assert.Equal(JsonValueKind.Null, unknown.RootElement.GetProperty("peak_kpa").ValueKind);
    }

    [Fact]
    public void The_words_end_by_deferring_to_maker_and_code()
    {
        var outcome = Outcome.Of("rating", "--site", folder["pvc.toml"], "--peak", "412 kPa", "--trough", "-5 kPa", "--beats-per-min", "50");
        Assert.Equal((0, ""), (outcome.ExitCode, outcome.Error));
        Assert.Contains("local codes", outcome.Out, StringComparison.Ordinal);
        Assert.All(outcome.Out.Split('\n'), line => Assert.True(line.Length <= 80, line));
    }

    [Fact]
    public void What_would_help_is_a_table_of_before_and_after()
    {
        using var rating = Rating("--peak", "50 psi", "--beats-per-min", "50", "--what-helps");
        var helps = rating.RootElement.GetProperty("what_helps");
        var before = helps.GetProperty("before").GetProperty("peak_kpa").GetProperty("value").GetDouble();
        var lighter = helps.GetProperty("after").EnumerateArray().Single(c => c.GetProperty("change").GetString() == "lighter waste valve");
        Assert.True(lighter.GetProperty("peak_kpa").GetProperty("value").GetDouble() < before);
        Assert.Equal(3, helps.GetProperty("runs").GetInt32());
        using var without = Rating("--peak", "50 psi");
        Assert.Equal(JsonValueKind.Null, without.RootElement.GetProperty("what_helps").ValueKind);
    }

    // 50 psi, 344.738 kPa (NIST SP 811: 1 psi = 6.894757 kPa), is 3.447 bar, 35.15 m and 115.3 ft of water (ftH2O 2.989067 kPa).
    [Theory]
    [InlineData("50 psi")]
    [InlineData("344.738 kPa")]
    [InlineData("3.44738 bar")]
    [InlineData("35.1535 m")]
    [InlineData("115.333 ft")]
    public void A_peak_may_be_given_in_any_unit(string peak)
    {
        using var rating = Rating("--peak", peak);
        Assert.Equal(344.738, rating.RootElement.GetProperty("peak_kpa").GetDouble(), 0.02);
    }

    [Theory]
    [InlineData("--peak", "412", "--peak: \"412\" has no unit")]
    [InlineData("--peak", "412 m/s", "unit of a speed")]
    [InlineData("--trough", "1e9 psia", "absolute")]
    [InlineData("--beats-per-min", "fast", "no beat rate")]
    [InlineData("--beats-per-min", "-5", "no beat rate")]
    public void A_wrong_figure_is_refused_by_its_option(string option, string value, string said)
    {
        var outcome = Outcome.Of("rating", "--site", folder["pvc.toml"], option, value);
        Assert.Equal((2, ""), (outcome.ExitCode, outcome.Out));
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
    }

    private JsonDocument Rating(params string[] more) =>
        JsonDocument.Parse(Outcome.Of(["rating", "--site", folder["pvc.toml"], "--json", .. more]).Out);
}
