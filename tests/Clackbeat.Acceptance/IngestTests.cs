using System.Diagnostics;
using System.Globalization;
using Clackbeat.Commands.Simulate;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Xunit.Abstractions;

namespace Clackbeat.Acceptance;

/// <summary>Recordings of a minute, as a logger leaves them, into the season store by the program itself.</summary>
public sealed class IngestTests(ITestOutputHelper output) : IDisposable
{
    // CLACKBEAT_LONG=1 asks for enough of them, a minute each, to measure by.
    private static readonly bool IsLong = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1";
    private static readonly int Recordings = IsLong ? 16 : 2;
    private static readonly double BurstS = IsLong ? 60 : 15;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Recordings_are_logged_many_times_faster_than_they_were_made_and_each_once()
    {
        Outcome.Of("site", "new", _folder["ram.toml"]);
        RamSite site = SiteFile.Load(_folder["ram.toml"]);
        string[] files = [.. Enumerable.Range(0, Recordings).Select(i => _folder[string.Create(CultureInfo.InvariantCulture, $"{i:00}.cbrec")])];
        Parallel.For(0, files.Length, i =>
        {
            RamDesign design = RamDesigner.Design(site);
            var chain = new VirtualChain(site, design, design.Sensor, new SimulationOptions { Seed = i });
            DemoRecording.Run(chain.Source, files[i], [], BurstS, new Progress<double>(), CancellationToken.None);
        });

        // The first run compiles what the others find compiled.
        TimeSpan quickest = TimeSpan.MaxValue;
        for (int run = 0; run < 3; run++)
        {
            var clock = Stopwatch.StartNew();
            var logged = Outcome.Of(["log", .. files, "--site", _folder["ram.toml"], "--store", _folder[$"season{run}.db"]]);
            quickest = clock.Elapsed < quickest ? clock.Elapsed : quickest;

            // A virtual logger on a busy machine may fall silent for a millisecond, which is told with code 3.
            Assert.True(logged.ExitCode is 0 or 3, logged.Error);
            Assert.Equal(files.Select(f => $"{f}: 1 burst stored, 0 already there"), logged.Out.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        }

        var again = Outcome.Of(["log", .. files, "--site", _folder["ram.toml"], "--store", _folder["season0.db"]]);
        Assert.All(again.Out.Split('\n', StringSplitOptions.RemoveEmptyEntries), l => Assert.EndsWith("0 bursts stored, 1 already there", l, StringComparison.Ordinal));
        double speed = files.Length * BurstS / quickest.TotalSeconds;
        output.WriteLine($"{files.Length} recordings of {BurstS} s in {quickest.TotalSeconds:0.00} s on {Environment.ProcessorCount} cores: {speed:0} times as fast as they were made");

        // Two hundred times on two cores is what fifty rams on one small computer take; a machine that is busy with other tests can't tell.
        Assert.True(!IsLong || speed >= 200, $"{speed:0}");
    }

    [Fact]
    public void Files_that_cannot_be_used_are_each_told()
    {
        Outcome.Of("site", "new", _folder["ram.toml"]);
        File.WriteAllText(_folder["broken.csv"], "song,singer\nLoch Lomond,Anna\n");
        var none = Outcome.Of("log", _folder["missing.cbrec"], _folder["broken.csv"], "--site", _folder["ram.toml"], "--store", _folder["s.db"]);
        Assert.Equal(2, none.ExitCode);
        Assert.Contains("missing.cbrec", none.Error, StringComparison.Ordinal);
        Assert.Contains("broken.csv", none.Error, StringComparison.Ordinal);
    }
}
