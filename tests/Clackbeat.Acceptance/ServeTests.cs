using System.Diagnostics;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Link;
using Clackbeat.VirtualLogger.Wires;

namespace Clackbeat.Acceptance;

/// <summary>simulate --serve, met as any program meets a logger: by opening the port it names.</summary>
public sealed class ServeTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [SkippableFact(Timeout = 120_000)]
    public async Task A_served_logger_answers_streams_in_real_time_and_ends_in_order_when_asked_to()
    {
        Skip.IfNot(PseudoTerminal.IsSupported, "this system has no pseudo-terminals");
        Outcome.Of("site", "new", _folder["ram.toml"]);
        using Process served = Process.Start(new ProcessStartInfo(
            Repository.Program, ["simulate", "--site", _folder["ram.toml"], "--serve"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        try
        {
            string port = (await served.StandardOutput.ReadLineAsync().WaitAsync(Patience))!;
            Assert.True(File.Exists(port), port);
            List<LoggerSample> samples = await Task.Run(() => Capture(port));
            Assert.InRange(samples.Max(s => s.Counts) - samples.Min(s => s.Counts), 100, 4095);
            using var kill = Process.Start("kill", ["-TERM", $"{served.Id}"]);
            await served.WaitForExitAsync().WaitAsync(Patience);
            Assert.Equal(0, served.ExitCode);
            Assert.Empty(await served.StandardOutput.ReadToEndAsync());
            Assert.DoesNotContain("   at ", await served.StandardError.ReadToEndAsync(), StringComparison.Ordinal);
        }
        finally
        {
            if (!served.HasExited)
            {
                served.Kill();
            }
        }
    }

    [SkippableFact]
    public void A_served_logger_ends_by_itself_after_the_time_asked_for()
    {
        Skip.IfNot(PseudoTerminal.IsSupported, "this system has no pseudo-terminals");
        Outcome.Of("site", "new", _folder["ram.toml"]);
        var cut = Outcome.Of("simulate", "--site", _folder["ram.toml"], "--serve", "--for", "1s");
        Assert.Equal(0, cut.ExitCode);
        Assert.StartsWith("/dev/", cut.Out, StringComparison.Ordinal);
        Assert.Single(cut.Out.Split('\n', StringSplitOptions.RemoveEmptyEntries));
    }

    [Theory]
    [InlineData("--out FILE.csv, or --serve")]
    [InlineData("Leave out --out, or --serve", "--serve", "--out", "x.csv")]
    [InlineData("--drift tells of a logger", "--drift", "20", "--out", "x.csv")]
    [InlineData("give 0 to 1", "--serve", "--flips", "2")]
    [InlineData("a logger keeps 1 to 5000", "--serve", "--rate", "20000")]
    public void What_does_not_go_together_is_said(string words, params string[] options)
    {
        Outcome.Of("site", "new", _folder["ram.toml"]);
        var refused = Outcome.Of(["simulate", "--site", _folder["ram.toml"], .. options]);
        Assert.Equal((2, ""), (refused.ExitCode, refused.Out));
        Assert.Contains(words, refused.Error, StringComparison.Ordinal);
    }

    private static List<LoggerSample> Capture(string port)
    {
        using var link = LoggerLink.Open(port);
        link.Identify(Patience);
        link.Start(new StartCommand());
        List<LoggerSample> samples = [];
        var watch = Stopwatch.StartNew();
        while (samples.Count == 0 || samples[^1].DeviceTimeMicroseconds - samples[0].DeviceTimeMicroseconds < 3_000_000)
        {
            samples.AddRange(link.Take(Patience) ?? throw new TimeoutException("no samples"));
        }

        // Not faster than time, but for the few milliseconds by which the device may be ahead.
        Assert.True(watch.Elapsed > TimeSpan.FromSeconds(2.9), $"three seconds took {watch.Elapsed}");
        link.Stop();
        return samples;
    }
}
