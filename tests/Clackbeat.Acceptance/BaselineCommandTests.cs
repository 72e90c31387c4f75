using System.Text.Json.Nodes;

namespace Clackbeat.Acceptance;

public sealed class BaselineCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_saved_baseline_is_compared_with_from_then_on_as_if_it_were_given()
    {
        Make("well.csv", "healthy", "1");
        Make("now.csv", "air-vessel-waterlogged", "2");
        var saved = Outcome.Of("baseline", _folder["well.csv"], "--site", _folder["ram.toml"]);
        Assert.True(saved.ExitCode == 0, saved.Error);
        Assert.True(File.Exists(_folder["ram.baseline.csv"]));

        string given = Diagnosis("--baseline", _folder["well.csv"]);
        Assert.Equal(given, Diagnosis());
        Assert.NotEqual(given, Diagnosis("--no-baseline"));
    }

    [Fact]
    public void A_baseline_is_not_overwritten_unasked_nor_made_from_a_ram_that_stands_still()
    {
        Make("well.csv", "healthy", "1");
        Make("still.csv", "stopped-shut", "1");
        Assert.Equal(0, Outcome.Of("baseline", _folder["well.csv"], "--site", _folder["ram.toml"]).ExitCode);
        var again = Outcome.Of("baseline", _folder["well.csv"], "--site", _folder["ram.toml"]);
        Assert.Equal(2, again.ExitCode);
        Assert.Contains("--overwrite", again.Error, StringComparison.Ordinal);
        var still = Outcome.Of("baseline", _folder["still.csv"], "--site", _folder["ram.toml"], "--overwrite");
        Assert.Equal(2, still.ExitCode);
        Assert.Contains("must beat", still.Error, StringComparison.Ordinal);
    }

    private string Diagnosis(params string[] more) =>
        JsonNode.Parse(Outcome.Of(["analyse", _folder["now.csv"], "--site", _folder["ram.toml"], "--json", .. more]).Out)!["diagnosis"]!.ToJsonString();

    private void Make(string name, string condition, string seed)
    {
        if (!File.Exists(_folder["ram.toml"]))
        {
            Assert.Equal(0, Outcome.Of("site", "new", _folder["ram.toml"]).ExitCode);
        }

        var made = Outcome.Of(["simulate", "--site", _folder["ram.toml"], "--condition", condition, "--seed", seed, "--for", "40s", "--out", _folder[name]]);
        Assert.True(made.ExitCode == 0, made.Error);
    }
}
