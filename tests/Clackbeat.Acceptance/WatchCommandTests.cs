using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace Clackbeat.Acceptance;

/// <summary>watch, from the user's seat: where the page is, what is refused, and that it ends when asked to.</summary>
public sealed class WatchCommandTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact(Timeout = 180_000)]
    public async Task A_virtual_ram_is_served_on_the_port_asked_for_until_the_program_is_asked_to_end()
    {
        Outcome.Of("site", "new", _folder["ram.toml"]);
        int port = FreePort();
        using Process watch = Start("watch", "virtual", "--site", _folder["ram.toml"], "--http", $"{port}", "--out", _folder["made"]);
        try
        {
            Assert.Equal($"http://127.0.0.1:{port}/", await watch.StandardOutput.ReadLineAsync().WaitAsync(Patience));
            using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{port}"), Timeout = Patience };
            Assert.Contains("main.js", await client.GetStringAsync("/"), StringComparison.Ordinal);
            using var live = new StreamReader(await client.GetStreamAsync("/live"));
            await Until(live, "event: picture");
            await Until(live, "event: trace");
            using var kill = Process.Start("kill", ["-TERM", $"{watch.Id}"]);
            await watch.WaitForExitAsync().WaitAsync(Patience);
            Assert.Equal(0, watch.ExitCode);
            Assert.DoesNotContain("   at ", await watch.StandardError.ReadToEndAsync(), StringComparison.Ordinal);
        }
        finally
        {
            if (!watch.HasExited)
            {
                watch.Kill(entireProcessTree: true);
            }
        }
    }

    [Fact]
    public void A_port_in_use_is_said_with_what_to_do()
    {
        Outcome.Of("site", "new", _folder["ram.toml"]);
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();
        var watch = Outcome.Of("watch", "virtual", "--site", _folder["ram.toml"], "--http", $"{((IPEndPoint)other.LocalEndpoint).Port}");
        Assert.Equal(2, watch.ExitCode);
        Assert.Contains("--http", watch.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("there is no port", "/dev/nothing-here")]
    [InlineData("watch 'virtual'", "/dev/nothing-here", "--severity", "0.4")]
    [InlineData("finished record", "virtual", "--speed", "4")]
    [InlineData("finished record", "/dev/nothing-here", "--speed", "4")]
    [InlineData("is no port", "virtual", "--http", "70000")]
    [InlineData("out of range", "virtual", "--speed", "0")]
    public void What_can_not_be_watched_is_refused_in_words(string said, params string[] args)
    {
        Outcome.Of("site", "new", _folder["ram.toml"]);
        string[] port = args.Contains("--http") ? [] : ["--http", $"{FreePort()}"];
        var watch = Outcome.Of(["watch", .. args, "--site", _folder["ram.toml"], .. port]);
        Assert.NotEqual(0, watch.ExitCode);
        Assert.Contains(said, watch.Error, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("   at ", watch.Error, StringComparison.Ordinal);
    }

    private static Process Start(params string[] args) => Process.Start(new ProcessStartInfo(Repository.Program, args)
    {
        RedirectStandardOutput = true,
        RedirectStandardError = true,
    })!;

    private static async Task Until(StreamReader stream, string line)
    {
        using var stop = new CancellationTokenSource(Patience);
        while (await stream.ReadLineAsync(stop.Token) is { } read && read != line)
        {
        }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
