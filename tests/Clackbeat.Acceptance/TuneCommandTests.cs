using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Acceptance;

public sealed class TuneCommandTests : IDisposable
{
    // The same for every test that needs a record of the template's ram: simulating it takes longer than what most of them try.
    private static readonly Lazy<string> Record = new(() =>
    {
        using var folder = new TemporaryFolder();
        File.WriteAllText(folder["ram.toml"], SiteTemplate.Text(Units.Metric));
        var made = Outcome.Of("simulate", "--site", folder["ram.toml"], "--for", "45s", "--out", folder["first.csv"]);
        Assert.True(made.ExitCode == 0, made.Error);
        return File.ReadAllText(folder["first.csv"]);
    });

    private readonly TemporaryFolder _folder = new();

    public TuneCommandTests() => File.WriteAllText(_folder["ram.toml"], SiteTemplate.Text(Units.Metric));

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_session_is_begun_fed_and_printed()
    {
        Outcome begun = Tune("new", _folder["valve.tune"], "--site", _folder["ram.toml"], "--knob", "stroke 4 mm to 12 mm");
        Assert.Equal(0, begun.ExitCode);
        Assert.Contains("Try next: stroke 8 mm", begun.Out, StringComparison.Ordinal);
        Assert.Contains("Shut the gate valve", begun.Out, StringComparison.Ordinal);

        File.WriteAllText(_folder["first.csv"], Record.Value);
        Outcome added = Tune("add", _folder["valve.tune"], _folder["first.csv"], "--site", _folder["ram.toml"], "--at", "0.8 cm");
        Assert.Equal(0, added.ExitCode);
        Assert.Contains("8 mm", added.Out, StringComparison.Ordinal);
        Assert.Contains("best", added.Out, StringComparison.Ordinal);
        Assert.Contains("By the twin of this ram", added.Out, StringComparison.Ordinal);

        Assert.Equal(0, Tune("sheet", _folder["valve.tune"], "--out", _folder["sheet.html"]).ExitCode);
        Assert.Equal(0, Tune("sheet", _folder["valve.tune"], "--out", _folder["sheet.pdf"]).ExitCode);
        string page = File.ReadAllText(_folder["sheet.html"]);
        Assert.Contains("Tuning sheet", page, StringComparison.Ordinal);
        Assert.Contains("gate valve", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_keeper_who_thinks_in_us_units_reads_them()
    {
        File.WriteAllText(_folder["us.toml"], SiteTemplate.Text(Units.Us));
        Outcome begun = Tune("new", _folder["valve.tune"], "--site", _folder["us.toml"], "--knob", "stroke 0.15 in to 0.5 in", "--now", "0.3 in");
        Assert.Contains("Try next: stroke 0.3 in", begun.Out, StringComparison.Ordinal);
        Outcome.Of("simulate", "--site", _folder["us.toml"], "--for", "45s", "--out", _folder["first.csv"]);
        Outcome added = Tune("add", _folder["valve.tune"], _folder["first.csv"], "--site", _folder["us.toml"], "--at", "0.3 in", "--no-twin");
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
        Outcome outcome = Tune(["new", _folder["valve.tune"], "--site", _folder["ram.toml"], option, value, .. usual]);

        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains(says, outcome.Error, StringComparison.OrdinalIgnoreCase);
        Assert.False(File.Exists(_folder["valve.tune"]));
    }

    [Fact]
    public void A_setting_out_of_range_or_another_rams_site_leaves_the_session_as_it_was()
    {
        Tune("new", _folder["valve.tune"], "--site", _folder["ram.toml"], "--knob", "stroke 4 mm to 12 mm");
        File.WriteAllText(_folder["first.csv"], Record.Value);
        string before = File.ReadAllText(_folder["valve.tune"]);
        File.WriteAllText(_folder["other.toml"], SiteTemplate.Text(Units.Metric).Replace("name = \"", "name = \"another ", StringComparison.Ordinal));

        Assert.Equal(2, Tune("add", _folder["valve.tune"], _folder["first.csv"], "--site", _folder["ram.toml"], "--at", "20 mm").ExitCode);
        Assert.Equal(2, Tune("add", _folder["valve.tune"], _folder["first.csv"], "--site", _folder["other.toml"], "--at", "8 mm").ExitCode);
        Assert.Equal(2, Tune("sheet", _folder["valve.tune"], "--out", _folder["sheet.pdf"]).ExitCode);
        Assert.Equal(before, File.ReadAllText(_folder["valve.tune"]));
    }

    [Fact]
    public void One_recording_is_one_trial_another_rams_is_none_and_a_trial_can_be_taken_back()
    {
        Tune("new", _folder["valve.tune"], "--site", _folder["ram.toml"], "--knob", "stroke 4 mm to 12 mm");
        File.WriteAllText(_folder["first.csv"], Record.Value);
        Assert.Equal(0, Tune("add", _folder["valve.tune"], _folder["first.csv"], "--site", _folder["ram.toml"], "--at", "8 mm", "--no-twin").ExitCode);
        string before = File.ReadAllText(_folder["valve.tune"]);

        File.Copy(_folder["first.csv"], _folder["copy.csv"]);
        Outcome twice = Tune("add", _folder["valve.tune"], _folder["copy.csv"], "--site", _folder["ram.toml"], "--at", "9 mm", "--same-ram");
        Assert.Equal(2, twice.ExitCode);
        Assert.Contains("recording of trial 1 (8 mm)", twice.Error, StringComparison.Ordinal);

        // The same name on a ram with twice the lift.
        string site = File.ReadAllText(_folder["ram.toml"]);
        File.WriteAllText(_folder["lift.toml"], System.Text.RegularExpressions.Regex.Replace(site, @"(\[delivery\][^\[]*?head = "")[^""]*", "${1}45 m"));
        Assert.Equal(0, Outcome.Of("simulate", "--site", _folder["lift.toml"], "--for", "45s", "--out", _folder["lift.csv"]).ExitCode);
        Outcome other = Tune("add", _folder["valve.tune"], _folder["lift.csv"], "--site", _folder["ram.toml"], "--at", "9 mm");
        Assert.Equal(2, other.ExitCode);
        Assert.Contains("--same-ram", other.Error, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllText(_folder["valve.tune"]));

        Assert.Equal(2, Tune("drop", _folder["valve.tune"], "2").ExitCode);
        Outcome dropped = Tune("drop", _folder["valve.tune"], "1");
        Assert.Equal(0, dropped.ExitCode);
        Assert.Contains("first.csv", dropped.Error, StringComparison.Ordinal);
        Assert.Equal(0, Tune("add", _folder["valve.tune"], _folder["first.csv"], "--site", _folder["ram.toml"], "--at", "9 mm", "--no-twin").ExitCode);
    }

    private static Outcome Tune(params string[] words) => Outcome.Of(["tune", .. words]);
}
