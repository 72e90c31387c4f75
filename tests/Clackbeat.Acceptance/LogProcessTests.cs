using System.Diagnostics;
using System.Net.Sockets;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Season.Alerts;
using Clackbeat.Season.Store;
using Clackbeat.Site.Quantities;
using Clackbeat.Unattended.Alerts;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.Acceptance;

/// <summary>The unattended log as a process on a serial port: killed at any moment, and ended in order.</summary>
public sealed class LogProcessTests : IDisposable
{
    // 200 kills take a quarter of an hour; CLACKBEAT_LONG=1 asks for them.
    private static readonly int Kills = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 200 : 4;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly TemporaryFolder _folder = new();
    private readonly CancellationTokenSource _powerOff = new();
    private readonly ServedLogger? _logger;

    public LogProcessTests()
    {
        if (PseudoTerminal.IsSupported)
        {
            SensorModel sensor = new() { NoiseCounts = 2 };
            _logger = VirtualLogger.VirtualLogger.Serve(
                new PressureConverter(t => 400e3 + (300e3 * Math.Sin(2 * Math.PI * 1.3 * t)), sensor), new VirtualLoggerOptions(), _powerOff.Token);
            Outcome.Of("site", "new", _folder["ram.toml"]);
        }
    }

    public void Dispose()
    {
        _logger?.Dispose();
        _powerOff.Dispose();
        _folder.Dispose();
    }

    [SkippableFact]
    public void Killing_the_log_at_any_moment_loses_no_recorded_burst_and_stores_none_twice()
    {
        Skip.If(_logger is null, "this system has no pseudo-terminals");
        var random = new Random(11);
        var seen = new HashSet<string>();
        for (int kill = 0; kill < Kills; kill++)
        {
            using Process log = Start();
            if (kill % 4 != 0)
            {
                // A busy machine takes its time to start a program; one in four is killed somewhere in that.
                Until(() => Array.Exists(Recordings(), f => f.EndsWith(".part", StringComparison.Ordinal)));
            }

            Thread.Sleep(random.Next(0, 2500));
            log.Kill();
            log.WaitForExit();
            seen.UnionWith(Recordings().Where(BlockReader.IsRecording).Select(NameOf));
        }

        // Only once it has stored a burst of its own is it sure to have begun, and to listen when asked to end.
        string[] before = [.. Recordings().Select(NameOf)];
        using (Process log = Start())
        {
            Until(() => Array.Exists(Recordings(), f => !f.Contains("pending", StringComparison.Ordinal) && !before.Contains(NameOf(f))));
            Assert.Equal(0, End(log));
        }

        string[] files = Recordings();
        Assert.DoesNotContain(files, f => f.Contains("pending", StringComparison.Ordinal));
        Assert.Empty(seen.Except(files.Select(f => Path.GetFileName(f)!)));
        using var store = SqliteSeasonStore.Open(_folder["season.db"], create: false);
        string[] stored = [.. store.Bursts(store.Rams().Single(), TimeSpanUtc.All).Select(b => Path.GetFileName(b.Source))];
        Assert.Equal(stored.Length, stored.Distinct().Count());
        Assert.NotEmpty(stored);

        // What holds half a burst or more must be stored; a shorter remnant tells no state and stays a file.
        string[] telling = [.. files.Where(f => RecordingScan.Of(f) is { Samples: > 1100 }).Select(f => Path.GetFileName(f))];
        Assert.Empty(telling.Except(stored));
    }

    [SkippableFact]
    public void A_log_that_is_asked_to_end_keeps_the_burst_under_way_and_is_quiet_in_a_pipe()
    {
        Skip.If(_logger is null, "this system has no pseudo-terminals");
        using Process log = Start("--every", "10min", "--for", "30s");
        Until(() => Array.Exists(Recordings(), f => f.EndsWith(".part", StringComparison.Ordinal) && new FileInfo(f).Length > 4000));
        Thread.Sleep(1500);
        Assert.Equal(0, End(log));
        string words = log.StandardError.ReadToEnd();
        Assert.Equal(2, words.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
        Assert.Empty(log.StandardOutput.ReadToEnd());
        var scan = RecordingScan.Of(Assert.Single(Recordings()));
        Assert.Equal(Completeness.Complete, scan.Completeness);
        Assert.True(scan.Samples > 1000, $"{scan.Samples}");
    }

    [Fact]
    public void The_file_it_writes_is_one_it_takes_and_the_unit_names_it()
    {
        Assert.Equal(0, Outcome.Of("log", "new", _folder["log.toml"]).ExitCode);
        Outcome.Of("site", "new", _folder["my-ram.toml"]);
        var unit = Outcome.Of("log", "service", "--config", _folder["log.toml"]);
        Assert.Equal((0, ""), (unit.ExitCode, unit.Error));
        Assert.Contains($"log --config {_folder["log.toml"]}", unit.Out, StringComparison.Ordinal);
        Assert.Contains("Type=notify", unit.Out, StringComparison.Ordinal);

        // Nothing for others, and no writing for the group.
        Assert.Matches("(?m)^UMask=0[0-7][2367]7$", unit.Out);
        Assert.Contains("sc.exe create", Outcome.Of("log", "service", "--windows", "--config", _folder["log.toml"]).Out, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Alerts_are_tried_listed_and_acknowledged_from_the_command_line()
    {
        Skip.If(OperatingSystem.IsWindows(), "needs a shell script");
        Outcome.Of("log", "new", _folder["log.toml"]);
        Outcome.Of("site", "new", _folder["my-ram.toml"]);
        Assert.Contains("names no way", Outcome.Of("log", "alerts", "--test", "--config", _folder["log.toml"]).Error, StringComparison.Ordinal);
        File.AppendAllText(_folder["log.toml"], $"[alerts.command]\nrun = [\"/bin/sh\", \"-c\", \"printf %s \\\"$CLACKBEAT_EVENT\\\" > {_folder["got"]}\"]\n[alerts.webhook]\nurl = \"http://127.0.0.1:9/\"\n");
        var test = Outcome.Of("log", "alerts", "--test", "--config", _folder["log.toml"]);
        Assert.Equal(1, test.ExitCode);
        Assert.Contains("command: sent", test.Out, StringComparison.Ordinal);
        Assert.Contains("webhook: failed.", test.Out, StringComparison.Ordinal);
        Assert.Equal("test", File.ReadAllText(_folder["got"]));

        var book = AlertBook.Open(Directory.CreateDirectory(_folder["log"]).FullName, out _);
        book.Take("mill", new AlertReading(AlertKind.Stopped, DateTimeOffset.UtcNow, Standing.Beyond, 1, 1), DateTimeOffset.UtcNow, Units.Metric, []);
        Assert.Contains("mill: it has stopped", Outcome.Of("log", "alerts", "--folder", _folder["log"]).Out, StringComparison.Ordinal);
        Assert.Contains("There is no alert 9", Outcome.Of("log", "ack", "9", "--folder", _folder["log"]).Error, StringComparison.Ordinal);
        Assert.Equal(0, Outcome.Of("log", "ack", "1", "--note", "on my way", "--config", _folder["log.toml"]).ExitCode);
        Assert.Contains("\"note\": \"on my way\"", Outcome.Of("log", "alerts", "--json", "--folder", _folder["log"]).Out, StringComparison.Ordinal);
    }

    /// <summary>sd_notify(3): READY=1 once it runs, WATCHDOG=1 within half the time asked for, STOPPING=1 at its end.</summary>
    [SkippableFact]
    public void A_service_manager_hears_that_the_log_is_ready_lives_and_ends()
    {
        Skip.IfNot(OperatingSystem.IsLinux() && File.Exists("/bin/sh"), "needs a system with systemd's notices");
        Outcome.Of("site", "new", _folder["ram.toml"]);

        // The hosting library takes a program for a service whose parent is called systemd.
        File.Copy("/bin/sh", _folder["systemd"]);
        using var socket = new Socket(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified);
        socket.Bind(new UnixDomainSocketEndPoint(_folder["notify"]));
        socket.ReceiveTimeout = (int)Patience.TotalMilliseconds;
        var start = new ProcessStartInfo(_folder["systemd"], ["-c", "\"$0\" \"$@\" & trap \"kill $!\" TERM; wait; wait", Repository.Program, "log", "/dev/ttyNONE", "--site", _folder["ram.toml"], "--store", _folder["s.db"]])
        {
            RedirectStandardError = true,
            Environment = { ["NOTIFY_SOCKET"] = _folder["notify"], ["WATCHDOG_USEC"] = "1000000" },
        };
        using Process service = Process.Start(start)!;
        List<string> heard = [];
        string Next()
        {
            byte[] buffer = new byte[200];
            heard.Add(System.Text.Encoding.ASCII.GetString(buffer, 0, socket.Receive(buffer)));
            return heard[^1];
        }

        while (heard.Count < 4)
        {
            Next();
        }

        Assert.Single(heard, "READY=1");
        Assert.Equal(3, heard.Count(h => h == "WATCHDOG=1"));
        Assert.Equal(0, End(service));
        while (Next() != "STOPPING=1")
        {
        }
    }

    [SkippableFact]
    public void The_unit_is_one_that_systemd_takes()
    {
        const string Verifier = "/usr/bin/systemd-analyze";
        Skip.IfNot(File.Exists(Verifier), "systemd is not installed");
        Outcome.Of("log", "new", _folder["log.toml"]);
        Outcome.Of("site", "new", _folder["my-ram.toml"]);

        // The tests' own host is no program that a unit could start.
        File.WriteAllText(_folder["clackbeat.service"], Outcome.OfProcess("log", "service", "--config", _folder["log.toml"]).Out);
        using Process verify = Process.Start(new ProcessStartInfo(Verifier, ["verify", _folder["clackbeat.service"]]) { RedirectStandardError = true })!;
        string words = verify.StandardError.ReadToEnd();
        verify.WaitForExit();
        Assert.Equal((0, ""), (verify.ExitCode, words));
    }

    [Theory]
    [InlineData("needs a logger's port", "log")]
    [InlineData("--site SITE", "log", "/dev/ttyNONE")]
    [InlineData("can't be used with --config", "log", "--config", "x.toml", "--store", "s.db")]
    [InlineData("there is no such file", "log", "--config", "missing.toml")]
    public void What_is_missing_or_does_not_go_together_is_said(string words, params string[] line)
    {
        var refused = Outcome.Of(line);
        Assert.Equal((2, ""), (refused.ExitCode, refused.Out));
        Assert.Contains(words, refused.Error, StringComparison.Ordinal);
    }

    private static string NameOf(string file) => Path.GetFileName(file).Replace(".part", "", StringComparison.Ordinal);

    private string[] Recordings() => Directory.Exists(_folder["season-log"])
        ? Directory.GetFiles(_folder["season-log"], "*.cbrec*", SearchOption.AllDirectories)
        : [];

    private Process Start(params string[] pace)
    {
        string[] usual = pace.Length > 0 ? pace : ["--every", "3s", "--for", "2s"];
        return Process.Start(new ProcessStartInfo(
            Repository.Program, ["log", _logger!.PortPath!, "--site", _folder["ram.toml"], "--store", _folder["season.db"], .. usual])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
    }

    private static int End(Process log)
    {
        using var kill = Process.Start("kill", ["-TERM", $"{log.Id}"]);
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
            Thread.Sleep(5);
        }
    }
}
