using System.IO.Compression;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Clackbeat.Acceptance;

public sealed class ShareCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Who_gets_the_archive_finds_the_figures_of_who_made_it()
    {
        MakeRecord();
        string[] bucket = ["--bucket", "delivery 14 L in 180 s"];
        var shared = Outcome.Of(["share", _folder["m.csv"], "--site", _folder["ram.toml"], .. bucket, "--licence", "CC0-1.0", "--out", _folder["m.zip"]]);
        Assert.True(shared.ExitCode == 0, shared.Error);

        JsonNode mine = Figures(["analyse", _folder["m.csv"], "--site", _folder["ram.toml"], .. bucket, "--json"]);
        JsonNode theirs = Figures("analyse", _folder["m.zip"], "--json");
        Assert.Equal(mine["flow"]!.ToJsonString(), theirs["flow"]!.ToJsonString());
        Assert.Equal(mine["beats"]!.ToJsonString(), theirs["beats"]!.ToJsonString());

        var report = Outcome.Of("report", _folder["m.zip"], "--out", _folder["m.html"]);
        Assert.Equal(0, report.ExitCode);
        Assert.Contains("A shared ram", File.ReadAllText(_folder["m.html"]), StringComparison.Ordinal);
    }

    [Fact]
    public void The_place_goes_along_only_when_asked_for()
    {
        MakeRecord();
        Assert.DoesNotContain("Fernhollow", SiteIn("without.zip"), StringComparison.Ordinal);
        Assert.Contains("Fernhollow", SiteIn("with.zip", "--with-place"), StringComparison.Ordinal);

        string SiteIn(string name, params string[] more)
        {
            Assert.Equal(0, Outcome.Of(["share", _folder["m.csv"], "--site", _folder["ram.toml"], "--out", _folder[name], .. more]).ExitCode);
            using ZipArchive zip = ZipFile.OpenRead(_folder[name]);
            using var text = new StreamReader(zip.GetEntry("site.toml")!.Open());
            return text.ReadToEnd();
        }
    }

    [Fact]
    public void A_record_without_a_site_file_needs_one()
    {
        MakeRecord();
        var refused = Outcome.Of("analyse", _folder["m.csv"]);
        Assert.Equal(2, refused.ExitCode);
        Assert.Contains("--site", refused.Error, StringComparison.Ordinal);
        Assert.Contains("doesn't exist", Outcome.Of("analyse", _folder["mistyped.zip"]).Error, StringComparison.Ordinal);
        Assert.Equal(2, Outcome.Of("share", _folder["m.csv"], "--site", _folder["ram.toml"], "--out", _folder["m.rar"]).ExitCode);
    }

    [Fact]
    public void A_hostile_archive_ends_with_a_sentence()
    {
        using (ZipArchive zip = ZipFile.Open(_folder["bad.zip"], ZipArchiveMode.Create))
        {
            foreach (string name in new[] { "manifest.json", "../../evil" })
            {
                using Stream part = zip.CreateEntry(name).Open();
                part.Write("{}"u8);
            }
        }

        foreach (string command in new[] { "analyse", "export", "share" })
        {
            var refused = Outcome.Of([command, _folder["bad.zip"], .. command == "analyse" ? Array.Empty<string>() : ["--out", _folder[command == "share" ? "o.zip" : "o.csv"]]]);
            Assert.Equal(2, refused.ExitCode);
            Assert.Contains("can't be read as a shared record", refused.Error, StringComparison.Ordinal);
            Assert.DoesNotContain("   at ", refused.Error, StringComparison.Ordinal);
        }

        Assert.Equal(["bad.zip"], _folder.Files);
    }

    private void MakeRecord()
    {
        Assert.Equal(0, Outcome.Of("site", "new", _folder["ram.toml"]).ExitCode);
        Assert.Equal(0, Outcome.Of("simulate", "--site", _folder["ram.toml"], "--for", "20s", "--out", _folder["m.csv"]).ExitCode);
    }

    private static JsonNode Figures(params string[] args)
    {
        var outcome = Outcome.Of(args);
        Assert.True(outcome.ExitCode == 0, outcome.Error);
        return JsonNode.Parse(outcome.Out, documentOptions: new JsonDocumentOptions { MaxDepth = 64 })!;
    }
}
