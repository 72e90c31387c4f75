using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Clackbeat.Commands;
using Clackbeat.Commands.Simulate;
using Clackbeat.Frame;
using Clackbeat.Logger;
using Clackbeat.Recording.Files;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.Acceptance;

/// <summary>
/// Every example of the help, run as printed: the files it names are there, in a folder of its own. Examples that need a
/// logger, a server, a card, a browser or a shell are held to the grammar of the command line alone.
/// </summary>
public sealed class HelpExampleTests : IDisposable
{
    // What stands in examples that a test can't give what they need: a logger, a server, a card, a browser, a shell, a year of
    // bursts, a burst or a trial of that very name, a password, or a test by hand.
    private static readonly string[] NeedsMore =
    [
        "/dev/tty", "COM3", "postgres://", "/etc/", "/media/", "watch ", "--serve", "--page", "--http", "completion ", "ports", "demo", "--demo",
        "plan enough", " correct ", " remove ", " restore ", " plot ", " report --from", "tune drop", "check shut", "check level", "check intake", "check stroke", "check bleed", "check vent", "run virtual", "points.csv", "log service", "log alerts", "log intake", " merge ", "log ack", " undo ", "overview account",
    ];

    // Some make what others read.
    private static readonly string[] Order = ["plan", "site", "simulate", "calibrate", "rating", "export", "share", "log", "tune"];

    // Commands that fit a twin or draw every fault take seconds for each example: of these the first is run, and all of them with CLACKBEAT_LONG.
    private static readonly string[] Slow = ["what-if ", "report ", "guide faults"];

    // GuideCommandTests run the same words and read the page that comes of them; every fault need not be drawn once more here.
    private const string ElsewhereRun = "guide faults --site my-ram.toml --language es --out faults.html";

    private static readonly string[] Folders = ["bursts", "season-parquet"];

    private static readonly string[] FileEndings = [".toml", ".csv", ".tsv", ".cbrec", ".zip", ".db", ".html", ".pdf", ".svg", ".parquet", ".tune", ".ics"];

    private static readonly string[] Returned = ["ExitCode.DonePartly", "ExitCode.NotWithin", "ExitCode.Failed", "RecordInput.Outcome("];

    // A conventional centimetre of water, NIST SP 811.
    private const double KpaPerCm = 0.0980665;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Every_example_is_understood()
    {
        var examples = Examples().ToList();
        Assert.True(examples.Count > 60, $"{examples.Count} examples");
        Assert.All(examples, example =>
        {
            var root = new RootCommand { Speech.CreateOption() };
            CommandList.Create(Session.OnStreams(TextWriter.Null, TextWriter.Null, CancellationToken.None)).ToList().ForEach(root.Add);
            Assert.Empty(root.Parse(Words(example), new ParserConfiguration { ResponseFileTokenReplacer = null }).Errors);
        });
    }

    [Fact]
    public void Every_example_that_files_are_enough_for_ends_well()
    {
        Prepare();
        string[] examples = [.. Examples()
            .Where(e => !NeedsMore.Any(n => e.Contains(n, StringComparison.Ordinal)))
            .GroupBy(e => Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? e : Slow.FirstOrDefault(s => e.StartsWith(s, StringComparison.Ordinal)) ?? e)
            .Select(same => same.First())
            .Where(e => e != ElsewhereRun)
            .OrderBy(e => e.Contains("--us", StringComparison.Ordinal) ? -1 : Array.IndexOf(Order, e.Split(' ')[0]) is >= 0 and int place ? place : Order.Length)];
        Assert.True(examples.Length > 25, $"{examples.Length} examples");
        Assert.All(examples, example =>
        {
            // A new file is not written over an old one: each finds its place free.
            string[] words = Words(example);
            int made = Array.IndexOf(words, "--out");
            if (words is ["site", "new", ..] || words.Contains("--site-out"))
            {
                File.Delete(_folder["my-ram.toml"]);
            }
            else if (made > 0)
            {
                File.Delete(InFolder(words[made + 1]));
            }

            var outcome = Outcome.Of([.. words.Select((w, i) => words[0] == "trend" && i == 2 ? w : InFolder(w))]);
            Assert.True(outcome.ExitCode == ExitCode.Done || Codes(example).Contains(outcome.ExitCode), $"{example}: exit code {outcome.ExitCode}. {outcome.Error}");
        });
    }

    /// <summary>A command that returns a code in its source names it, so that its help tells what it means.</summary>
    [Fact]
    public void Every_command_whose_source_returns_more_than_done_and_wrong_input_tells_so_in_its_help()
    {
        string[] untold = [.. Directory.EnumerateFiles(Path.Combine(Repository.Root, "host/Clackbeat/Commands"), "*Command.cs", SearchOption.AllDirectories)
            .Where(file => Returned.Any(code => File.ReadAllText(file).Contains(code, StringComparison.Ordinal)) && !File.ReadAllText(file).Contains("MayEndWith(", StringComparison.Ordinal))
            .Select(file => Path.GetFileName(file))];
        Assert.Empty(untold);
        string help = Outcome.Of("rating", "--help").Out;
        Assert.Contains("Exit codes:", help, StringComparison.Ordinal);
        Assert.All(new[] { "  0  ", "  1  ", "  2  ", "  4  " }, code => Assert.Contains(code, help, StringComparison.Ordinal));
        Assert.DoesNotContain("  3  ", help, StringComparison.Ordinal);
        Assert.DoesNotContain("Exit codes:", Outcome.Of("site", "check", "--help").Out, StringComparison.Ordinal);
    }

    // Two traces of the virtual ram, a recording of its virtual logger, and copies of them under the names that the help uses.
    private void Prepare()
    {
        Outcome.Of("site", "new", _folder["my-ram.toml"]);
        RamSite site = SiteFile.Load(_folder["my-ram.toml"]);
        Outcome.Of("simulate", "--site", _folder["my-ram.toml"], "--for", "40s", "--out", _folder["monday.csv"]);
        File.Copy(_folder["monday.csv"], _folder["when-well.csv"]);
        File.Copy(_folder["monday.csv"], _folder["after-overhaul.csv"]);
        string[] rows = [.. File.ReadLines(_folder["monday.csv"]).Where(l => char.IsDigit(l.TrimStart('-')[0])).Select(l => l.Split(','))
            .Select(c => string.Create(CultureInfo.InvariantCulture, $"{Number(c[0]) / 86400:R}\t{Number(c[1]) / KpaPerCm:R}"))];
        File.WriteAllLines(_folder["lab.tsv"], ["day_fraction\tbody_cm", .. rows]);
        RamDesign design = RamDesigner.Design(site);
        foreach ((string name, int seed) in new[] { ("monday", 1), ("tuesday", 2), ("well", 3), ("first", 4) })
        {
            RecordedLine.Make(
                _folder[$"{name}.cbrec"], site, new VirtualChain(site, design, design.Sensor, new SimulationOptions { Seed = seed }), TimeSpan.FromSeconds(22),
                new RecordingDocument(DocumentRole.Site, "my-ram.toml", File.ReadAllText(_folder["my-ram.toml"])));
        }

        VirtualLogger.VirtualLogger.RunAlone(
            new VirtualChain(site, design, design.Sensor, new SimulationOptions()).Source,
            new VirtualLoggerOptions
            {
                CardFolder = _folder["card"],
                Settings = new LoggerSettings { WorksAlone = true, BurstLengthMilliseconds = 8000, BurstIntervalMilliseconds = 3_600_000 },
            },
            1.5 * 3600);
        Outcome.Of("collect", _folder["card"], "--out", _folder["bursts"], "--started", "2026-05-01T09:00:00Z");
    }

    private static IReadOnlyList<int> Codes(string example)
    {
        var root = new RootCommand { Speech.CreateOption() };
        CommandList.Create(Session.OnStreams(TextWriter.Null, TextWriter.Null, CancellationToken.None)).ToList().ForEach(root.Add);
        return root.Parse(Words(example)).CommandResult.Command is ExampleCommand command ? command.ExitCodes : [];
    }

    private static double Number(string word) => double.Parse(word, CultureInfo.InvariantCulture);

    private static IEnumerable<string> Examples()
    {
        var waiting = new Queue<Command>(CommandList.Create(Session.OnStreams(TextWriter.Null, TextWriter.Null, CancellationToken.None)));
        while (waiting.TryDequeue(out Command? command))
        {
            foreach (string example in (command as ExampleCommand)?.Examples ?? [])
            {
                yield return example;
            }

            command.Subcommands.ToList().ForEach(waiting.Enqueue);
        }
    }

    // What the shell takes for itself goes: everything from a > on.
    private static string[] Words(string example) => [.. CommandLineParser.SplitCommandLine(example.Split('>')[0])];

    private string InFolder(string word) =>
        Folders.Contains(word) || FileEndings.Any(e => word.EndsWith(e, StringComparison.Ordinal)) ? _folder[word] : word;
}
