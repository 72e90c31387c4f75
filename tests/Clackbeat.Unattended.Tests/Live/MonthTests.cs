using System.Globalization;
using Clackbeat.Season.Alerts;
using Clackbeat.Season.Store;
using Clackbeat.Unattended.Alerts;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Tests.Bench;
using Xunit.Abstractions;

namespace Clackbeat.Unattended.Tests.Live;

/// <summary>
/// A month of the log on the bench's clock, with what a month brings: the ram stands, the cable is out, the store is away, the
/// computer's clock is set, the disk fills, the computer restarts. Forty hours at a burst an hour unless CLACKBEAT_LONG=1 asks for
/// thirty at a burst a quarter.
/// </summary>
[Collection(nameof(Alone))]
public sealed class MonthTests(ITestOutputHelper output) : IDisposable
{
    private const string Port = "/bench/ttyUSB0";

    // Bursts that are due in all.
    private static readonly int Slots = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 30 * 96 : 40;
    private static readonly TimeSpan Every = TimeSpan.FromMinutes(Slots > 40 ? 15 : 60);

    private const int StandsFor = 4;
    private const int UnpluggedFor = 5;
    private const int StoreAwayFor = 5;
    private const int DiskFullFor = 2;

    private readonly LogBench _bench = new();
    private readonly List<Footprint> _footprints = [];
    private bool _storeIsAway;

    public void Dispose() => _bench.Dispose();

    [Fact]
    public void A_month_misses_no_burst_stores_none_twice_tells_what_happened_and_grows_in_nothing()
    {
        LockstepLine line = _bench.Plug(Port);
        _bench.OpenStore = path => new FailingStore(SqliteSeasonStore.Open(path, create: true), () => _storeIsAway);
        LogSettings settings = _bench.Settings(LogBench.RamOn(Port)) with
        {
            Every = Every,
            Length = TimeSpan.FromSeconds(12),
            Disk = new DiskSettings { MostBytes = Slots * 1000, LeastFreeBytes = 1_000_000, BaselineDays = 1 },
        };
        (int At, Action Do)[] script =
        [
            (5, () => _bench.Ram.Stopped = true), (5 + StandsFor, () => _bench.Ram.Stopped = false),
            (Slots * 9 / 30, line.Unplug), ((Slots * 9 / 30) + UnpluggedFor, line.Plug),
            (Slots * 13 / 30, () => _storeIsAway = true), ((Slots * 13 / 30) + StoreAwayFor, () => _storeIsAway = false),
            (Slots * 17 / 30, () => _bench.Clock.Set(-4 * Every)),
            (Slots * 20 / 30, () => _bench.Clock.Set(8 * Every)),
            (Slots * 22 / 30, () => _bench.FreeBytes = 1000), ((Slots * 22 / 30) + DiskFullFor, () => _bench.FreeBytes = 100_000_000_000),
        ];
        int restart = Slots * 24 / 30;
        Run(settings, 0, restart, script);
        Run(settings, restart, Slots, script);
        IReadOnlyList<BurstState> stored = _bench.Stored();
        output.WriteLine($"{stored.Count} bursts of {Slots} due; MB, descriptors, threads: {string.Join(", ", _footprints)}");
        output.WriteLine(string.Join("\n", _bench.News.Select(n => n.Words).Distinct()));

        // All that fell due but for those while the cable was out; one more at the start, one when the cable is in again, and one
        // at once when the clock is set past the next.
        Assert.Equal(Slots - UnpluggedFor + 3, stored.Count);
        double[] lateS = [.. stored.Select(b => (b.AtUtc - DateTimeOffset.UnixEpoch).TotalSeconds % Every.TotalSeconds).Select(s => Math.Min(s, Every.TotalSeconds - s))];
        Assert.Equal(3, lateS.Count(s => s > 60));
        Assert.Equal(StandsFor, stored.Count(b => b.State != Signal.States.RamState.Beating));
        AssertAlerts();
        Assert.True(_bench.Files().Sum(f => new FileInfo(f).Length) <= settings.Disk.MostBytes);
        Assert.DoesNotContain(_bench.Files(), f => f.Contains("pending", StringComparison.Ordinal));
        AssertFlat();
    }

    private void Run(LogSettings settings, int from, int to, (int At, Action Do)[] script)
    {
        IEnumerable<(TimeSpan, Action)> events = script.Where(e => e.At >= from && e.At < to).Select(e => ((e.At - from) * Every, e.Do));
        IEnumerable<(TimeSpan, Action)> looks = Enumerable.Range(0, 20).Select(i => Slots * i / 20).Where(at => at >= from && at < to)
            .Select(at => ((at - from) * Every, (Action)(() => _footprints.Add(Footprint.Now()))));
        _bench.Run(settings, (to - from) * Every, [.. events, .. looks]);
    }

    // Each thing that happened was told once, and that it was over.
    private void AssertAlerts()
    {
        IReadOnlyList<StoredAlert> alerts = AlertBook.Look(_bench.Folder).Alerts;
        Assert.Equal([AlertKind.Stopped, AlertKind.LoggerSilent, AlertKind.DiskFilling], alerts.Select(a => a.Kind));
        Assert.All(alerts, a => Assert.NotNull(a.ClearedUtc));
        Assert.True(_bench.Said("There is no port"), "the cable");
        Assert.True(_bench.Said("doesn't answer"), "the store");
        Assert.True(_bench.Said("set back by"), "the clock");
        Assert.True(_bench.Said("set forward by"), "the clock");
        Assert.False(_bench.Said("Something went wrong"));
    }

    // A burst's samples are some hundred kilobytes: what grew with the bursts would show in tens of megabytes. A few threads
    // and descriptors come and go, so that medians are compared: of an early third and of the last.
    private void AssertFlat()
    {
        Assert.True(Growth(f => f.Bytes) < 8_000_000, "memory");
        Assert.True(Growth(f => f.Descriptors) < 20, "descriptors");
        Assert.True(Growth(f => f.Threads) < 20, "threads");
    }

    private long Growth(Func<Footprint, long> of)
    {
        long[] held = [.. _footprints.Skip(2).Select(of)];
        int third = held.Length / 3;
        return held[^third..].Order().ElementAt(third / 2) - held[..third].Order().ElementAt(third / 2);
    }

    private readonly record struct Footprint(long Bytes, int Descriptors, int Threads)
    {
        public static Footprint Now() => new(
            GC.GetTotalMemory(forceFullCollection: true),
            Directory.Exists("/proc/self/fd") ? Directory.GetFiles("/proc/self/fd").Length : 0,
            System.Diagnostics.Process.GetCurrentProcess().Threads.Count);

        public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Bytes / 1e6:0.0} {Descriptors} {Threads}");
    }
}
