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

    private readonly TemporaryFolder _folder = new();

    public RatingCommandTests() => File.WriteAllText(_folder["pvc.toml"], Pvc);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_rating_is_the_tables_and_the_verdict_follows_the_peak()
    {
        using JsonDocument within = Rating("--peak", "50 psi", "--trough", "0 kPa", "--beats-per-min", "50");
        // 330 psi = 2275 kPa; a table rounds to the nearest 10 psi.
        Assert.InRange(within.RootElement.GetProperty("rated_kpa").GetDouble(), 325 * 6.894757, 335 * 6.894757);
        Assert.Equal(50 * 6.894757, within.RootElement.GetProperty("peak_kpa").GetDouble(), 0.01);

        using JsonDocument over = Rating("--peak", "400 psi", "--trough", "0 kPa", "--beats-per-min", "50");
        Assert.Equal("over", over.RootElement.GetProperty("verdict").GetString());
        Assert.Equal("within", within.RootElement.GetProperty("pressure_verdict").GetString());
    }

    // 200 psi of 330 psi at 60 beats a minute: within by pressure, and by all four curves cracked before 20 years.
    [Fact]
    public void Pressure_and_fatigue_are_two_verdicts()
    {
        using JsonDocument rating = Rating("--peak", "200 psi", "--trough", "0 kPa", "--beats-per-min", "60");
        Assert.Equal("within", rating.RootElement.GetProperty("verdict").GetString());
        Assert.Equal("over", rating.RootElement.GetProperty("fatigue_verdict").GetString());
        Assert.StartsWith("AWWA C900", rating.RootElement.GetProperty("rule").GetString(), StringComparison.Ordinal);
        Assert.Equal("pvc-curves", rating.RootElement.GetProperty("fatigue").GetProperty("rule").GetString());
        Assert.True(rating.RootElement.GetProperty("fatigue_life_years").GetProperty("high").GetDouble() < 20);
    }

    // The contract: 0 within, 4 near or over; 2 stays a mistake of the user's.
    [Theory]
    [InlineData(0, "50 psi", "50")]
    [InlineData(4, "400 psi", "50")]
    [InlineData(4, "200 psi", "60")]
    [InlineData(2, "50", "50")]
    public void A_script_can_tell_by_the_exit_code(int code, string peak, string beats)
    {
        foreach (string[] json in (string[][])[[], ["--json"]])
        {
            Assert.Equal(code, Outcome.Of(["rating", "--site", _folder["pvc.toml"], "--peak", peak, "--trough", "0 kPa", "--beats-per-min", beats, .. json]).ExitCode);
        }
    }

    [Fact]
    public void The_help_tells_the_exit_codes()
    {
        string help = string.Join(' ', Outcome.Of("rating", "--help").Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("Exit code 0", help, StringComparison.Ordinal);
        Assert.Contains("4: near or over", help, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_peak_there_is_no_verdict()
    {
        using JsonDocument unknown = Rating();
        Assert.Equal("unknown", unknown.RootElement.GetProperty("verdict").GetString());
        Assert.Equal(JsonValueKind.Null, unknown.RootElement.GetProperty("peak_kpa").ValueKind);
    }

    [Fact]
    public void The_words_end_by_deferring_to_maker_and_code()
    {
        var outcome = Outcome.Of("rating", "--site", _folder["pvc.toml"], "--peak", "412 kPa", "--trough", "-5 kPa", "--beats-per-min", "50");
        Assert.Equal((0, ""), (outcome.ExitCode, outcome.Error));
        Assert.Contains("local codes", outcome.Out, StringComparison.Ordinal);
        Assert.All(outcome.Out.Split('\n'), line => Assert.True(line.Length <= 80, line));
    }

    [Fact]
    public void What_would_help_is_a_table_of_before_and_after()
    {
        using JsonDocument rating = Rating("--peak", "50 psi", "--beats-per-min", "50", "--what-helps");
        JsonElement helps = rating.RootElement.GetProperty("what_helps");
        double before = helps.GetProperty("before").GetProperty("peak_kpa").GetProperty("value").GetDouble();
        JsonElement lighter = helps.GetProperty("after").EnumerateArray().Single(c => c.GetProperty("change").GetString() == "lighter waste valve");
        Assert.True(lighter.GetProperty("peak_kpa").GetProperty("value").GetDouble() < before);
        Assert.Equal(3, helps.GetProperty("runs").GetInt32());
        using JsonDocument without = Rating("--peak", "50 psi");
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
        using JsonDocument rating = Rating("--peak", peak);
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
        var outcome = Outcome.Of("rating", "--site", _folder["pvc.toml"], option, value);
        Assert.Equal((2, ""), (outcome.ExitCode, outcome.Out));
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
    }

    private JsonDocument Rating(params string[] more) =>
        JsonDocument.Parse(Outcome.Of(["rating", "--site", _folder["pvc.toml"], "--json", .. more]).Out);
}
