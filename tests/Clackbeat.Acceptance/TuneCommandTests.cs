using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Acceptance;

public sealed class TuneCommandTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public TuneCommandTests() => File.WriteAllText(folder["ram.toml"], SiteTemplate.Text(Units.Metric));

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_session_is_begun_fed_and_printed()
    {
        var begun = Tune("new", folder["valve.tune"], "--site", folder["ram.toml"], "--knob", "stroke 4 mm to 12 mm");
        Assert.Equal(0, begun.ExitCode);
        Assert.Contains("Try next: stroke 8 mm", begun.Out, StringComparison.Ordinal);
        Assert.Contains("Shut the gate valve", begun.Out, StringComparison.Ordinal);

        var made = Outcome.Of("simulate", "--site", folder["ram.toml"], "--for", "45s", "--out", folder["first.csv"]);
        Assert.Equal(0, made.ExitCode);
        var added = Tune("add", folder["valve.tune"], folder["first.csv"], "--site", folder["ram.toml"], "--at", "0.8 cm");
        Assert.Equal(0, added.ExitCode);
        Assert.Contains("8 mm", added.Out, StringComparison.Ordinal);
        Assert.Contains("best", added.Out, StringComparison.Ordinal);

        Assert.Equal(0, Tune("sheet", folder["valve.tune"], "--out", folder["sheet.html"]).ExitCode);
        Assert.Equal(0, Tune("sheet", folder["valve.tune"], "--out", folder["sheet.pdf"]).ExitCode);
        string page = File.ReadAllText(folder["sheet.html"]);
        Assert.Contains("Tuning sheet", page, StringComparison.Ordinal);
        Assert.Contains("gate valve", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_keeper_who_thinks_in_us_units_reads_them()
    {
        File.WriteAllText(folder["us.toml"], SiteTemplate.Text(Units.Us));
        var begun = Tune("new", folder["valve.tune"], "--site", folder["us.toml"], "--knob", "stroke 0.15 in to 0.5 in", "--now", "0.3 in");
        Assert.Contains("Try next: stroke 0.3 in", begun.Out, StringComparison.Ordinal);
        Outcome.Of("simulate", "--site", folder["us.toml"], "--for", "45s", "--out", folder["first.csv"]);
        var added = Tune("add", folder["valve.tune"], folder["first.csv"], "--site", folder["us.toml"], "--at", "0.3 in");
        Assert.Contains("gpm", added.Out, StringComparison.Ordinal);
        Assert.Contains("psi", added.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("bar", added.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--now", "13 mm", "outside of the stroke's range")]
    [InlineData("--knob", "stroke", "is no range of settings")]
    [InlineData("--for", "more-water", "is no aim")]
    [InlineData("--enough", "some", "flow")]
    public void Wrong_words_are_named(string option, string value, string says)
    {
        string[] usual = option == "--knob" ? [] : ["--knob", "stroke 4 mm to 12 mm"];
        var outcome = Tune(["new", folder["valve.tune"], "--site", folder["ram.toml"], option, value, .. usual]);

        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains(says, outcome.Error, StringComparison.OrdinalIgnoreCase);
        Assert.False(File.Exists(folder["valve.tune"]));
    }

    [Fact]
    public void A_setting_out_of_range_or_another_rams_site_leaves_the_session_as_it_was()
    {
        Tune("new", folder["valve.tune"], "--site", folder["ram.toml"], "--knob", "stroke 4 mm to 12 mm");
        Outcome.Of("simulate", "--site", folder["ram.toml"], "--for", "30s", "--out", folder["first.csv"]);
        string before = File.ReadAllText(folder["valve.tune"]);
        File.WriteAllText(folder["other.toml"], SiteTemplate.Text(Units.Metric).Replace("name = \"", "name = \"another ", StringComparison.Ordinal));

        Assert.Equal(2, Tune("add", folder["valve.tune"], folder["first.csv"], "--site", folder["ram.toml"], "--at", "20 mm").ExitCode);
        Assert.Equal(2, Tune("add", folder["valve.tune"], folder["first.csv"], "--site", folder["other.toml"], "--at", "8 mm").ExitCode);
        Assert.Equal(2, Tune("sheet", folder["valve.tune"], "--out", folder["sheet.pdf"]).ExitCode);
        Assert.Equal(before, File.ReadAllText(folder["valve.tune"]));
    }

    private static Outcome Tune(params string[] words) => Outcome.Of(["tune", .. words]);
}
