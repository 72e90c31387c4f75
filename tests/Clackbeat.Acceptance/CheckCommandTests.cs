using System.Globalization;
using System.Text.Json.Nodes;
using Clackbeat.Site.Check;
using Clackbeat.Site.Files;

namespace Clackbeat.Acceptance;

/// <summary>The tests by hand as a sequence on the command line, with input that is no terminal.</summary>
public sealed class CheckCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public CheckCommandTests()
    {
        Assert.Equal(0, Outcome.Of("site", "new", _folder["ram.toml"]).ExitCode);
        var made = Outcome.Of("simulate", "--site", _folder["ram.toml"], "--condition", "delivery-valve-leaking", "--severity", "0.8", "--for", "40s", "--out", _folder["monday.csv"]);
        Assert.True(made.ExitCode == 0, made.Error);
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_sequence_prints_its_plan_takes_up_what_was_read_meanwhile_and_ends_with_the_cause()
    {
        string log = _folder["tests.jsonl"];
        Begun(log);
        Outcome plan = Run("--log", log);
        Assert.True(plan.ExitCode == 0, plan.Error);
        Assert.Contains("check shut RECORDING --site", plan.Out, StringComparison.Ordinal);
        Assert.Contains("Caution: ", plan.Out, StringComparison.Ordinal);
        Assert.Contains("check run", plan.Out, StringComparison.Ordinal);
        Assert.Equal("shut", Json(log)["next"]!["test"]!.GetValue<string>());

        Shut("shut.csv");
        var read = Outcome.Of("check", "shut", _folder["shut.csv"], "--site", _folder["ram.toml"], "--log", log);
        Assert.True(read.ExitCode == 0, read.Error);
        Assert.Contains("The delivery valve leaks.", read.Out, StringComparison.Ordinal);

        JsonNode end = Json(log);
        Assert.True(end["is_decided"]!.GetValue<bool>());
        Assert.Null(end["next"]);
        Assert.Equal("delivery-valve-leaking", end["causes"]![0]!["condition"]!.GetValue<string>());
        Assert.Equal("delivery-valve-leaks", Assert.Single(end["steps"]!.AsArray())!["verdict"]!.GetValue<string>());
        Assert.Contains("Decided", Run("--log", log).Out, StringComparison.Ordinal);
        Assert.Equal(2, File.ReadAllLines(log).Length);
    }

    [Fact]
    public void A_record_is_judged_once_and_afresh_with_restart()
    {
        string log = _folder["tests.jsonl"];
        Assert.Equal(0, Run("--log", log).ExitCode);
        Assert.Equal(0, Run("--log", log).ExitCode);
        Assert.Single(File.ReadAllLines(log));
        Assert.Equal(0, Run("--log", log, "--restart").ExitCode);
        Assert.Equal(2, File.ReadAllLines(log).Length);
    }

    [Fact]
    public void A_test_that_no_record_asks_for_can_be_named()
    {
        Begun(_folder["tests.jsonl"]);
        JsonNode plan = JsonNode.Parse(Run("--log", _folder["tests.jsonl"], "--test", "vent", "--json").Out)!;
        Assert.Equal("vent", plan["next"]!["test"]!.GetValue<string>());
        Assert.Contains("--before", plan["next"]!["command"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_sequence_a_test_is_read_and_kept_and_nothing_is_said_of_causes()
    {
        Shut("shut.csv");
        var read = Outcome.Of("check", "shut", _folder["shut.csv"], "--site", _folder["ram.toml"]);
        Assert.Equal(0, read.ExitCode);
        Assert.DoesNotContain("How likely", read.Out, StringComparison.Ordinal);
        Assert.True(File.Exists(_folder["ram.checks.jsonl"]));
    }

    [Fact]
    public void What_cannot_be_used_is_refused_with_what_to_do()
    {
        Refused("table.no-such-file", "doesn't exist", "run", "none.csv");
        File.WriteAllText(_folder["bad.jsonl"], "{\"test\":\"shut\"}\nnot json\n");
        Refused("check-log.broken", "line 2", "run", "monday.csv", "--log", _folder["bad.jsonl"]);
        Refused("check-log.no-such-test", "shut", "run", "monday.csv", "--test", "shout");
        Refused("option", "--before", "vent", "monday.csv");
        Refused("option.watch-virtual", "--condition", "run", "monday.csv", "--condition", "healthy");
        Outcome.Of("simulate", "--site", _folder["ram.toml"], "--condition", "stopped-shut", "--stop-at", "1s", "--for", "30s", "--out", _folder["still.csv"]);
        Refused("check-log.not-judged", "Record a minute", "run", "still.csv");
    }

    [Fact]
    public void A_record_made_again_is_held_against_the_one_before()
    {
        Outcome.Of("simulate", "--site", _folder["ram.toml"], "--condition", "supply-starved", "--severity", "0.7", "--for", "40s", "--out", _folder["before.csv"]);
        Outcome.Of("simulate", "--site", _folder["ram.toml"], "--for", "40s", "--out", _folder["after.csv"]);
        var read = Outcome.Of("check", "intake", _folder["after.csv"], "--before", _folder["before.csv"], "--site", _folder["ram.toml"], "--json");
        Assert.True(read.ExitCode == 0, read.Error);
        Assert.Equal("mended", JsonNode.Parse(read.Out)!["verdict"]!.GetValue<string>());
    }

    private void Refused(string what, string words, string command, string input, params string[] more)
    {
        var refused = Outcome.Of(["check", command, _folder[input], "--site", _folder["ram.toml"], .. more]);
        Assert.True(refused.ExitCode == 2, what + ": " + refused.Error);
        Assert.Contains(words, refused.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", refused.Error, StringComparison.Ordinal);
    }

    private Outcome Run(params string[] more) => Outcome.Of(["check", "run", _folder["monday.csv"], "--site", _folder["ram.toml"], .. more]);

    private JsonNode Json(string log) => JsonNode.Parse(Run("--log", log, "--json").Out)!;

    // The causes are the test's own, so that it doesn't hang on what the trees say of this record.
    private static void Begun(string log) => File.WriteAllText(
        log,
        "{\"begun_utc\":\"2026-11-30T10:00:00Z\",\"record\":\"monday.csv\",\"causes\":[{\"condition\":\"healthy\",\"probability\":0.5},{\"condition\":\"delivery-valve-leaking\",\"probability\":0.4}]}\n");

    // A climb to the vessel's pressure, as an orifice fills what is trapped.
    private void Shut(string name)
    {
        var expected = ExpectedFigures.For(SiteFile.Load(_folder["ram.toml"]));
        (double low, double high) = (expected.StaticPa, expected.DeliveryPa);
        IEnumerable<string> rows = Enumerable.Range(0, 4700).Select(i => i * 0.01).Select(t =>
            string.Create(CultureInfo.InvariantCulture, $"{t:0.00},{(t < 10 ? low : t < 40 ? high - ((high - low) * Math.Exp(-(t - 10) / 2)) : 0) / 1000:0.000}"));
        File.WriteAllLines(_folder[name], rows.Prepend("t_s,p (kPa gauge)"));
    }
}
