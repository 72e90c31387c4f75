using System.Text.Json;

namespace Clackbeat.Acceptance;

public sealed class SiteCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("metric")]
    [InlineData("us")]
    public void A_new_site_file_passes_its_own_check(string units)
    {
        string? path = _folder["ram.toml"];
        var made = Outcome.Of(["site", "new", path, .. units == "us" ? ["--us"] : Array.Empty<string>()]);
        Assert.Equal((0, ""), (made.ExitCode, made.Out));
        Assert.Contains(path, made.Error, StringComparison.Ordinal);
        var check = Outcome.Of("site", "check", path);
        Assert.Equal((0, ""), (check.ExitCode, check.Error));
        Assert.Contains("What to expect of this ram", check.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_check_is_plain_text_of_80_columns_where_nobody_sees_a_terminal()
    {
        Outcome.Of("site", "new", _folder["ram.toml"]);
        string[]? lines = Outcome.Of("site", "check", _folder["ram.toml"]).Out.Split('\n');
        Assert.All(lines, line => Assert.True(line.Length <= 80 && line == line.TrimEnd() && !line.Contains('\u001B'), line));
    }

    [Fact]
    public void A_file_that_exists_stays_as_it_is()
    {
        string? path = _folder["ram.toml"];
        File.WriteAllText(path, "mine");
        var refused = Outcome.Of("site", "new", path);
        Assert.Equal(2, refused.ExitCode);
        Assert.Contains("--overwrite", refused.Error, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(path));
        Assert.Equal(["ram.toml"], _folder.Files);

        Assert.Equal(0, Outcome.Of("site", "new", path, "--overwrite").ExitCode);
        Assert.StartsWith("#", File.ReadAllText(path), StringComparison.Ordinal);
        Assert.Equal(["ram.toml"], _folder.Files);
    }

    [Theory]
    [InlineData("missing/ram.toml", "doesn't exist")]
    [InlineData("", "this is a folder")]
    public void A_place_that_takes_no_file_is_named(string name, string said)
    {
        var refused = Outcome.Of("site", "new", _folder[name]);
        Assert.Equal(2, refused.ExitCode);
        Assert.Contains(said, refused.Error, StringComparison.Ordinal);
        Assert.Empty(_folder.Files);
    }

    [Theory]
    [InlineData("[delivery]\nhead = \"24 m\"", "[delivery]\nhead = \"2 m\"", "not above [supply] head")]
    [InlineData("bore = \"52.5 mm\"", "bore = \"62.5 mm\"", "not smaller than outside_diameter")]
    [InlineData("-1 bar to 40 bar", "0 bar to 1 bar", "peaks would be cut off")]
    [InlineData("head = \"24 m\"", "head = \"24 bar\"", "unit of a gauge pressure")]
    public void A_contradiction_is_told_with_its_line_and_ends_with_2(string from, string to, string said)
    {
        string? path = _folder["ram.toml"];
        Outcome.Of("site", "new", path);
        string? text = File.ReadAllText(path).Replace("[delivery]\n\n# Outlet of the delivery pipe (or the water level it pushes against) above the waste valve's outlet.\n", "[delivery]\n", StringComparison.Ordinal);
        Assert.Contains(from, text, StringComparison.Ordinal);
        File.WriteAllText(path, text.Replace(from, to, StringComparison.Ordinal));
        var check = Outcome.Of("site", "check", path);
        Assert.Equal(2, check.ExitCode);
        Assert.Matches(@"line \d+: ", check.Error);
        Assert.Contains(said, check.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_is_one_object_and_nothing_else()
    {
        Outcome.Of("site", "new", _folder["ram.toml"]);
        using var good = JsonDocument.Parse(Outcome.Of("site", "check", _folder["ram.toml"], "--json").Out);
        Assert.Equal("clackbeat.site-check/2", good.RootElement.GetProperty("schema").GetString());
        Assert.True(good.RootElement.GetProperty("ok").GetBoolean());
        JsonElement beats = good.RootElement.GetProperty("expected").GetProperty("beats_per_min");
        Assert.True(beats.GetProperty("low").GetDouble() < beats.GetProperty("high").GetDouble());
        JsonElement expected = good.RootElement.GetProperty("expected");
        Assert.True(expected.GetProperty("sensor_range_kpa").GetDouble()
            >= expected.GetProperty("peak_ceiling_kpa").GetProperty("high").GetDouble());

        File.WriteAllText(_folder["bad.toml"], "[site]\nname = 5\n");
        var outcome = Outcome.Of("site", "check", _folder["bad.toml"], "--json");
        using var bad = JsonDocument.Parse(outcome.Out);
        Assert.Equal(2, outcome.ExitCode);
        Assert.False(bad.RootElement.GetProperty("ok").GetBoolean());
        Assert.Equal(2, bad.RootElement.GetProperty("problems")[0].GetProperty("line").GetInt32());
    }

    [Theory]
    [InlineData(new byte[0], "missing")]
    [InlineData(new byte[] { 0, 1, 2, 3 }, "no text file")]
    public void A_file_that_is_no_site_file_is_refused(byte[] content, string said)
    {
        File.WriteAllBytes(_folder["ram.toml"], content);
        var check = Outcome.Of("site", "check", _folder["ram.toml"]);
        Assert.Equal((2, ""), (check.ExitCode, check.Out));
        Assert.Contains(said, check.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_not_there_is_named_with_the_remedy()
    {
        var check = Outcome.Of("site", "check", _folder["none.toml"]);
        Assert.Equal(2, check.ExitCode);
        Assert.Contains("clackbeat site new", check.Error, StringComparison.Ordinal);
    }
}
