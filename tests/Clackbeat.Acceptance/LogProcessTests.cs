using System.Diagnostics;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Season.Store;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.Acceptance;

/// <summary>The unattended log as a process on a serial port: killed at any moment, and ended in order.</summary>
public sealed class LogProcessTests : IDisposable
{
    // 200 kills take a quarter of an hour; CLACKBEAT_LONG=1 asks for them.
    private static readonly int Kills = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 200 : 4;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly TemporaryFolder folder = new();
    private readonly CancellationTokenSource powerOff = new();
    private readonly ServedLogger? logger;

    public LogProcessTests()
    {
        if (PseudoTerminal.IsSupported)
        {
            SensorModel sensor = new() { NoiseCounts = 2 };
            logger = VirtualLogger.VirtualLogger.Serve(
                new PressureConverter(t => 400e3 + (300e3 * Math.Sin(2 * Math.PI * 1.3 * t)), sensor), new VirtualLoggerOptions(), powerOff.Token);
            Outcome.Of("site", "new", folder["ram.toml"]);
        }
    }

    public void Dispose()
    {
        logger?.Dispose();
        powerOff.Dispose();
        folder.Dispose();
    }

    [SkippableFact]
    public void Killing_the_log_at_any_moment_loses_no_recorded_burst_and_stores_none_twice()
    {
        Skip.If(logger is null, "this system has no pseudo-terminals");
        var random = new Random(11);
        var seen = new HashSet<string>();
        for (int kill = 0; kill < Kills; kill++)
        {
            using Process log = Start();
            Thread.Sleep(random.Next(700, 4500));
            log.Kill();
            log.WaitForExit();
            seen.UnionWith(Recordings().Where(BlockReader.IsRecording).Select(f => Path.GetFileName(f).Replace(".part", "", StringComparison.Ordinal)));
        }

        using (Process log = Start())
        {
            Thread.Sleep(4000);
            Assert.Equal(0, End(log));
        }

        string[] files = [.. Recordings()];
        Assert.DoesNotContain(files, f => f.Contains("pending", StringComparison.Ordinal));
        Assert.Empty(seen.Except(files.Select(f => Path.GetFileName(f)!)));
        using SqliteSeasonStore store = SqliteSeasonStore.Open(folder["season.db"], create: false);
        string[] stored = [.. store.Bursts(store.Rams().Single(), TimeSpanUtc.All).Select(b => Path.GetFileName(b.Source))];
        Assert.Equal(stored.Length, stored.Distinct().Count());
        Assert.True(stored.Length >= Kills / 2, $"{stored.Length} bursts stored");

        // What holds half a burst or more must be stored; a shorter remnant tells no state and stays a file.
        string[] telling = [.. files.Where(f => RecordingScan.Of(f) is { Samples: > 600 }).Select(f => Path.GetFileName(f))];
        Assert.Empty(telling.Except(stored));
    }

    [SkippableFact]
    public void A_log_that_is_asked_to_end_keeps_the_burst_under_way_and_is_quiet_in_a_pipe()
    {
        Skip.If(logger is null, "this system has no pseudo-terminals");
        using Process log = Start("--every", "10min", "--for", "30s");
        Until(() => Recordings().Any(f => f.EndsWith(".part", StringComparison.Ordinal) && new FileInfo(f).Length > 4000));
        Thread.Sleep(1500);
        Assert.Equal(0, End(log));
        string words = log.StandardError.ReadToEnd();
        Assert.Equal(2, words.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
        Assert.Empty(log.StandardOutput.ReadToEnd());
        RecordingScan scan = RecordingScan.Of(Assert.Single(Recordings()));
        Assert.Equal(Completeness.Complete, scan.Completeness);
        Assert.True(scan.Samples > 1000, $"{scan.Samples}");
    }

    [Fact]
    public void The_file_it_writes_is_one_it_takes_and_the_unit_names_it()
    {
        Assert.Equal(0, Outcome.Of("log", "new", folder["log.toml"]).ExitCode);
        Outcome.Of("site", "new", folder["my-ram.toml"]);
        Outcome unit = Outcome.Of("log", "service", "--config", folder["log.toml"]);
        Assert.Equal((0, ""), (unit.ExitCode, unit.Error));
        Assert.Contains($"log --config {folder["log.toml"]}", unit.Out, StringComparison.Ordinal);
        Assert.Contains("Type=notify", unit.Out, StringComparison.Ordinal);
        Assert.Contains("sc.exe create", Outcome.Of("log", "service", "--windows", "--config", folder["log.toml"]).Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("needs a logger's port", "log")]
    [InlineData("--site SITE", "log", "/dev/ttyNONE")]
    [InlineData("can't stand beside --config", "log", "--config", "x.toml", "--store", "s.db")]
    [InlineData("there is no such file", "log", "--config", "missing.toml")]
    public void What_is_missing_or_does_not_go_together_is_said(string words, params string[] line)
    {
        Outcome refused = Outcome.Of(line);
        Assert.Equal((2, ""), (refused.ExitCode, refused.Out));
        Assert.Contains(words, refused.Error, StringComparison.Ordinal);
    }

    private IEnumerable<string> Recordings() => Directory.Exists(folder["season-log"])
        ? Directory.EnumerateFiles(folder["season-log"], "*.cbrec*", SearchOption.AllDirectories)
        : [];

    private Process Start(params string[] pace)
    {
        string[] usual = pace.Length > 0 ? pace : ["--every", "2s", "--for", "1s"];
        return Process.Start(new ProcessStartInfo(
            Repository.Program, ["log", logger!.PortPath!, "--site", folder["ram.toml"], "--store", folder["season.db"], .. usual])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
    }

    private static int End(Process log)
    {
        using Process kill = Process.Start("kill", ["-TERM", $"{log.Id}"]);
        if (!log.WaitForExit(Patience))
        {
            log.Kill();
            throw new TimeoutException("the log doesn't end");
        }

        return log.ExitCode;
    }

    private static void Until(Func<bool> reached)
    {
        var clock = Stopwatch.StartNew();
        while (!reached())
        {
            Assert.True(clock.Elapsed < Patience, "waited in vain");
            Thread.Sleep(20);
        }
    }
}
