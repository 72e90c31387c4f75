using System.CommandLine;
using System.CommandLine.Parsing;
using System.Diagnostics;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using Clackbeat.Commands;
using Clackbeat.Commands.Guide;
using Clackbeat.Frame;
using Clackbeat.Report.Export;
using Clackbeat.Report.Guides;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Acceptance;

/// <summary>The keeper's guides: complete in every language, quick, and the same sentences as the documentation.</summary>
public sealed partial class GuideCommandTests : IDisposable
{
    // Ten seconds are asked for where the machine is the program's own; other tests run beside it here.
    private const double PatienceS = 90;

    // One language goes the whole way from the command line, with a site file; the others share the pictures of the invented ram.
    private const string WholeWay = "es";

    private static readonly Lazy<FaultPortraits> Portraits = new(() => VirtualPortraits.Make(null, CancellationToken.None));

    private static readonly string[] Faults = [.. ConditionTraits.Codes.Where(c => c != Conditions.Healthy)];

    private readonly TemporaryFolder _folder = new();

    public static TheoryData<string> Languages => [.. Catalogue.All.Select(c => c.Language.Code)];

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Languages))]
    public void The_field_guide_has_every_fault_with_its_picture_and_all_that_is_to_be_done(string language)
    {
        Catalogue own = Catalogue.Find(language)!;
        string page = language == WholeWay ? ByTheCommand(language) : OfTheSamePictures(own);
        Assert.Contains($"<html lang=\"{language}\">", page, StringComparison.Ordinal);
        Assert.All(Faults, code =>
        {
            int from = page.IndexOf($"<section id=\"{code}\"", StringComparison.Ordinal);
            string section = page[from..page.IndexOf("</section>", from, StringComparison.Ordinal)];
            Assert.Contains("<svg", section, StringComparison.Ordinal);
            string words = Words(section);
            Assert.Contains(own.Say($"guide-see.{code}"), words, StringComparison.Ordinal);
            Assert.All(own.AdviceParts(code), part => Assert.Contains(part.Text, words, StringComparison.Ordinal));
        });

        // It asks nothing of the network, and says nothing that stands in the English catalogue alone.
        Assert.DoesNotContain("src=\"http", page, StringComparison.Ordinal);
        AssertOwnWords(Words(page), own);
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void The_calibration_guide_has_its_steps_cautions_and_commands(string language)
    {
        string page = Written("calibrate", "--language", language, "--us");
        Catalogue own = Catalogue.Find(language)!;
        string words = Words(page);
        string[] keys = [.. own.Phrases.Keys.Where(k => k.StartsWith("guide-calibrate.", StringComparison.Ordinal) && own.Phrases[k].Places.Count == 0)];
        Assert.True(keys.Length > 35);
        Assert.All(keys, key => Assert.Contains(own.Say(key), words, StringComparison.Ordinal));
        Assert.Contains("clackbeat calibrate --site my-ram.toml --points points.csv --latitude 47 --out calibration.toml", words, StringComparison.Ordinal);
        AssertOwnWords(words, own);
    }

    [Fact]
    public void The_commands_of_the_calibration_guide_are_understood()
    {
        string[] commands = [.. Code().Matches(Written("calibrate", "--us")).Select(m => Words(m.Value).Trim()).Where(c => c.StartsWith("clackbeat ", StringComparison.Ordinal))];
        Assert.Equal(6, commands.Length);
        Assert.All(commands, command =>
        {
            var root = new RootCommand();
            CommandList.Create(Session.OnStreams(TextWriter.Null, TextWriter.Null, CancellationToken.None)).ToList().ForEach(root.Add);
            Assert.Empty(root.Parse([.. CommandLineParser.SplitCommandLine(command).Skip(1)]).Errors);
        });
    }

    /// <summary>Figures of the simulation may differ in a digit on another processor; the words may not.</summary>
    [Fact]
    public void The_documentation_has_the_same_sentences_as_the_guides()
    {
        // What 'guide faults --language en --out field-guide.md' does once the faults are drawn, which take nearly all of its time.
        using (var file = OutputFile.Create(_folder["field-guide.md"], overwrite: false))
        {
            GuideCommand.WriteMarkdown(file, Portraits.Value, overwrite: false);
            file.Commit();
        }

        string docs = File.ReadAllText(Path.Combine(Repository.Root, "docs/field-guide.md"));
        Assert.Equal(Digits().Replace(File.ReadAllText(_folder["field-guide.md"]), "#"), Digits().Replace(docs, "#"));
        Assert.All(Directory.GetFiles(_folder["images/signatures"]), picture => Assert.True(File.Exists(Path.Combine(Repository.Root, "docs/images/signatures", Path.GetFileName(picture)))));

        Outcome.Of("guide", "calibrate", "--language", "en", "--out", _folder["calibration.md"]);
        string[] lines = [.. File.ReadAllLines(_folder["calibration.md"]).Skip(1).Where(l => l.Length > 0)];
        string hardware = File.ReadAllText(Path.Combine(Repository.Root, "hardware/calibration.md"));
        Assert.All(lines, line => Assert.Contains(line.TrimStart('#'), hardware, StringComparison.Ordinal));
    }

    private string ByTheCommand(string language)
    {
        Outcome.Of("site", "new", _folder["my-ram.toml"]);
        var watch = Stopwatch.StartNew();
        string page = Written("faults", "--site", _folder["my-ram.toml"], "--language", language);
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, PatienceS);
        return page;
    }

    // The simulations are the same in every language and take nearly all of the time.
    private static string OfTheSamePictures(Catalogue own)
    {
        using IDisposable spoken = Catalogue.Use(own);
        using var page = new MemoryStream();
        GuideWriter.Faults(page, ReportFormat.Html, Portraits.Value, Units.Metric, new DateTimeOffset(2026, 5, 1, 12, 0, 0, TimeSpan.Zero));
        return Encoding.UTF8.GetString(page.ToArray());
    }

    private string Written(string guide, params string[] more)
    {
        string path = _folder[guide + ".html"];
        var outcome = Outcome.Of(["guide", guide, .. more, "--out", path]);
        Assert.True(outcome.ExitCode == ExitCode.Done, outcome.Error);
        return File.ReadAllText(path);
    }

    // A sentence of another language's catalogue: four words in a row or more, without places, that the own one lacks.
    private static void AssertOwnWords(string words, Catalogue own)
    {
        if (own != Catalogue.English)
        {
            Assert.All(
                Catalogue.English.Phrases.Where(p => p.Value.Places.Count == 0 && p.Value.ToString().Count(c => c == ' ') >= 3 && p.Value.ToString() != own.Phrases[p.Key].ToString()),
                p => Assert.DoesNotContain(p.Value.ToString(), words, StringComparison.Ordinal));
        }
    }

    private static string Words(string html) => Blanks().Replace(WebUtility.HtmlDecode(Tag().Replace(Style().Replace(html, " "), "")), " ");

    [GeneratedRegex("<style>.*?</style>", RegexOptions.Singleline)]
    private static partial Regex Style();

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tag();

    [GeneratedRegex("[ \n\r\t]+")]
    private static partial Regex Blanks();

    [GeneratedRegex(@"\d+(?:\.\d+)?")]
    private static partial Regex Digits();

    [GeneratedRegex("<pre class=\"code\">.*?</pre>", RegexOptions.Singleline)]
    private static partial Regex Code();
}
