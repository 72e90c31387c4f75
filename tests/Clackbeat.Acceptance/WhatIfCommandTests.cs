using System.Text.Json;

namespace Clackbeat.Acceptance;

public sealed class WhatIfCommandTests : IDisposable
{
    private const string Steel = """
        site.name = "steel"
        supply = { head = "2.5 m", head_uncertainty = "0.02 m", water_temperature = "12 °C" }
        drive_pipe = { material = "galvanised steel", length = "10 m", bore = "41.8 mm", wall = "3.2 mm" }
        delivery.head = "16 m"
        sensor.range = "0 bar to 10 bar"
        """;

    // One record of that ram for all questions.
    private static readonly Lazy<string> Record = new(() =>
    {
        using var folder = new TemporaryFolder();
        File.WriteAllText(folder["ram.toml"], Steel);
        var made = Outcome.Of("simulate", "--site", folder["ram.toml"], "--for", "20s", "--out", folder["well.csv"]);
        Assert.True(made.ExitCode == 0, made.Error);
        return File.ReadAllText(folder["well.csv"]);
    });

    private readonly TemporaryFolder _folder = new();

    public WhatIfCommandTests() => File.WriteAllText(_folder["ram.toml"], Steel);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_record_tells_what_a_higher_outlet_would_give()
    {
        File.WriteAllText(_folder["well.csv"], Record.Value);
        var outcome = Outcome.Of("what-if", _folder["well.csv"], "--site", _folder["ram.toml"], "--delivery-head", "20 m", "--json");
        Assert.True(outcome.ExitCode == 0, outcome.Error);
        using var json = JsonDocument.Parse(outcome.Out);
        double Value(string ram, string figure) => json.RootElement.GetProperty(ram).GetProperty(figure).GetProperty("value").GetDouble();
        foreach (string ram in new[] { "as_is", "changed" })
        {
            foreach (string figure in new[] { "rate_per_min", "delivered_l_per_min", "waste_l_per_min", "peak_kpa", "efficiency" })
            {
                Assert.True(Value(ram, figure) > 0);
                Assert.True(json.RootElement.GetProperty(ram).GetProperty(figure).GetProperty("u").GetDouble() > 0);
            }

            Assert.InRange(json.RootElement.GetProperty(ram).GetProperty("will_beat").GetDouble(), 0.5, 1);
        }

        // A quarter more lift stops the column a quarter sooner: about a fifth less water, and nearly the same rate.
        Assert.InRange(Value("changed", "delivered_l_per_min") / Value("as_is", "delivered_l_per_min"), 0.6, 0.95);
        Assert.InRange(Value("changed", "rate_per_min") / Value("as_is", "rate_per_min"), 0.95, 1.15);
    }

    [Fact]
    public void A_range_of_weights_gives_a_curve_on_which_more_weight_draws_more_water()
    {
        File.WriteAllText(_folder["well.csv"], Record.Value);
        string[] question = ["what-if", _folder["well.csv"], "--site", _folder["ram.toml"], "--weight", "-20 % to +20 %"];
        var outcome = Outcome.Of([.. question, "--json"]);
        Assert.True(outcome.ExitCode == 0, outcome.Error);
        using var json = JsonDocument.Parse(outcome.Out);
        JsonElement[] curve = [.. json.RootElement.GetProperty("curve").EnumerateArray()];
        Assert.Equal(9, curve.Length);
        Assert.Equal((0.8, 1.0, 1.2), (curve[0].GetProperty("factor").GetDouble(), curve[4].GetProperty("factor").GetDouble(), curve[8].GetProperty("factor").GetDouble()));

        // A heavier plug shuts later: a greater velocity, so a slower beat and more water drawn (field guide, tuning page).
        double[] rates = [.. curve.Select(c => c.GetProperty("rate_per_min").GetProperty("value").GetDouble())];
        double[] drawn = [.. curve.Select(c => c.GetProperty("waste_l_per_min").GetProperty("value").GetDouble())];
        Assert.All(Enumerable.Range(1, 8), i => Assert.True(rates[i] < rates[i - 1] && drawn[i] > drawn[i - 1], $"step {i}"));
        Assert.Equal(json.RootElement.GetProperty("as_is").GetProperty("rate_per_min").GetProperty("value").GetDouble(), rates[4]);
        Assert.Contains("+20 %", Outcome.Of(question).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_twin_is_saved_and_serves_as_the_ram_itself()
    {
        Assert.Equal(0, Outcome.Of("simulate", "--site", _folder["ram.toml"], "--seed", "5", "--for", "20s", "--out", _folder["well.csv"]).ExitCode);
        var made = Outcome.Of(
            "what-if", _folder["well.csv"], "--site", _folder["ram.toml"], "--weight", "+10 %", "--save", _folder["twin.json"], "--slow-motion", _folder["slow.html"],
            "--out", _folder["change.html"], "--json", "--language", "fr");
        Assert.True(made.ExitCode == 0, made.Error);
        string page = File.ReadAllText(_folder["change.html"]);
        Assert.Contains("bélier", page, StringComparison.Ordinal);
        Assert.Contains("id=\"plot-beat-twin\"", page, StringComparison.Ordinal);
        Assert.Contains("clapet de choc", File.ReadAllText(_folder["slow.html"]), StringComparison.Ordinal);

        var run = Outcome.Of("simulate", "--site", _folder["ram.toml"], "--twin", _folder["twin.json"], "--for", "20s", "--out", _folder["again.csv"]);
        Assert.True(run.ExitCode == 0, run.Error);
        (double Rate, double Delivered) Truth(string name)
        {
            using var truth = JsonDocument.Parse(File.ReadAllText(_folder[name]));
            JsonElement summary = truth.RootElement.GetProperty("totals");
            return (summary.GetProperty("rate_per_min").GetDouble(), summary.GetProperty("delivered_l_per_min").GetDouble());
        }

        // The twin beats as the ram does: within what the fit may miss of rate, and a flow found from pressure of flow.
        (double rate, double delivered) = Truth("well.truth.json");
        (double twinRate, double twinDelivered) = Truth("again.truth.json");
        Assert.InRange(twinRate / rate, 0.96, 1.04);
        Assert.InRange(twinDelivered / delivered, 0.85, 1.15);
    }

    [Fact]
    public void Another_drive_pipe_is_read_in_parts()
    {
        File.WriteAllText(_folder["well.csv"], Record.Value);
        var outcome = Outcome.Of(
            "what-if", _folder["well.csv"], "--site", _folder["ram.toml"], "--drive-pipe", "length +50 %, material PE100, wall 4.6 mm", "--json");
        Assert.True(outcome.ExitCode == 0, outcome.Error);
        using var json = JsonDocument.Parse(outcome.Out);
        double Value(string ram, string figure) => json.RootElement.GetProperty(ram).GetProperty(figure).GetProperty("value").GetDouble();
        // A longer column takes longer to speed up, and waves in PE are three to four times slower than in steel: a slower, softer beat.
        Assert.InRange(Value("changed", "rate_per_min") / Value("as_is", "rate_per_min"), 0.5, 0.85);
        Assert.True(Value("changed", "peak_kpa") < Value("as_is", "peak_kpa"));
    }

    // The virtual ram's vessel is full, so its air can only be lost. Its swing then goes as one over the air (polytropic gas): many times as far.
    [Fact]
    public void Lost_air_makes_the_vessel_swing_and_a_range_is_told_in_volumes()
    {
        File.WriteAllText(_folder["well.csv"], Record.Value);
        string[] question = ["what-if", _folder["well.csv"], "--site", _folder["ram.toml"]];
        var outcome = Outcome.Of([.. question, "--air", "lost", "--json"]);
        Assert.True(outcome.ExitCode == 0, outcome.Error);
        using var json = JsonDocument.Parse(outcome.Out);
        double Swing(string ram) => json.RootElement.GetProperty(ram).GetProperty("vessel_swing_kpa").GetProperty("value").GetDouble();
        Assert.True(Swing("changed") > 5 * Swing("as_is"), outcome.Out);
        JsonElement air = json.RootElement.GetProperty("twin").GetProperty("air");
        Assert.True(air.GetProperty("low_l").GetDouble() < air.GetProperty("full_l").GetDouble());

        var range = Outcome.Of([.. question, "--air", "lost to full"]);
        Assert.True(range.ExitCode == 0, range.Error);
        Assert.Contains(" L ", range.Out, StringComparison.Ordinal);
        Assert.Contains("air", range.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("can't be read", "--air", "much")]
    [InlineData("Its least is", "--air", "1 mL")]
    [InlineData("Write both ends alike", "--air", "lost to +10 %")]
    [InlineData("can't be read", "--drive-pipe", "longer")]
    [InlineData("--drive-pipe wall", "--drive-pipe", "wall thicker")]
    [InlineData(".html", "--stroke", "-10 %", "--out", "page.txt")]
    [InlineData(".html", "--slow-motion", "beat.pdf")]
    [InlineData("begins and ends", "--weight", "+10 % to +10 %")]
    [InlineData("both name a range", "--weight", "-10 % to +10 %", "--supply-head", "2 m to 3 m")]
    [InlineData("Say what is changed")]
    [InlineData("--stroke", "--stroke", "less")]
    [InlineData("[waste_valve] stroke", "--stroke", "6 mm")]
    public void A_question_that_cant_be_read_is_refused_before_the_record_is(string part, params string[] options)
    {
        var outcome = Outcome.Of(["what-if", _folder["none.csv"], "--site", _folder["ram.toml"], .. options]);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains(part, outcome.Error, StringComparison.Ordinal);
    }
}
