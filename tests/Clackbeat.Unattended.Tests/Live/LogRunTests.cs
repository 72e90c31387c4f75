using System.Globalization;
using Clackbeat.Recording.Reading;
using Clackbeat.Season.Store;
using Clackbeat.Signal.States;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Tests.Bench;
using Xunit.Abstractions;

namespace Clackbeat.Unattended.Tests.Live;

/// <summary>The log on the bench, through what happens in years at a stream.</summary>
public class LogRunTests(ITestOutputHelper output)
{
    private const string Port = "/bench/ttyUSB0";
    private const string Other = "/bench/ttyUSB1";

    [Fact]
    public void Every_quarter_of_the_clock_brings_a_burst_and_each_is_stored_once()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        bench.Run(bench.Settings(LogBench.RamOn(Port)), TimeSpan.FromHours(2));
        IReadOnlyList<SeasonBurst> bursts = bench.StoredWhole();

        // The first at once, then 00:15 to 02:00; the clock stood at 00:07.
        Assert.Equal(9, bursts.Count);
        string[] slots = ["00:07:00", "00:15:00", "00:30:00", "00:45:00", "01:00:00", "01:15:00", "01:30:00", "01:45:00", "02:00:00"];
        Assert.All(bursts.Zip(slots), b => Assert.InRange((b.First.StartUtc.TimeOfDay - TimeSpan.Parse(b.Second, CultureInfo.InvariantCulture)).TotalSeconds, -1, 4));
        Assert.All(bursts, b => Assert.Equal(RamState.Beating, b.State));
        Assert.All(bursts, b => Assert.True(b.DurationS > 19.9, $"{b.DurationS}"));
        Assert.All(bursts, b => Assert.InRange(b.Figures[SeasonFigure.Rate].Value, 0.97 * bench.Ram.RatePerMin, 1.03 * bench.Ram.RatePerMin));
        Assert.Equal(bursts.Count, bench.Files().Length);
        Assert.All(bursts, b => Assert.True(File.Exists(Path.Combine(bench.Bursts, b.Source)), b.Source));
        Assert.DoesNotContain(bench.News, n => n.IsTrouble);
    }

    [Fact]
    public void An_unplugged_logger_is_waited_for_and_heard_again_with_a_burst_at_once()
    {
        using var bench = new LogBench();
        LockstepLine line = bench.Plug(Port);
        bench.Run(
            bench.Settings(LogBench.RamOn(Port)),
            TimeSpan.FromMinutes(75),
            (TimeSpan.FromMinutes(10), line.Unplug),
            (TimeSpan.FromMinutes(40), line.Plug));
        Assert.True(bench.Said("There is no port"), "it is said");
        Assert.True(bench.Said("heard again"), "and that it is over");
        IReadOnlyList<BurstState> bursts = bench.Stored();
        Assert.DoesNotContain(bursts, b => b.AtUtc > LogBench.Start.AddMinutes(10) && b.AtUtc < LogBench.Start.AddMinutes(40));
        Assert.Contains(bursts, b => b.AtUtc >= LogBench.Start.AddMinutes(40) && b.AtUtc < LogBench.Start.AddMinutes(41.5));
        Assert.Contains(bench.Files(), f => f.EndsWith("-extra.cbrec", StringComparison.Ordinal));
    }

    [Fact]
    public void A_logger_that_comes_back_on_another_port_is_found_by_its_identity()
    {
        using var bench = new LogBench();
        LockstepLine line = bench.Plug(Port);
        bench.Run(
            bench.Settings(LogBench.RamOn(Port)),
            TimeSpan.FromMinutes(40),
            (TimeSpan.FromMinutes(10), () =>
            {
                bench.Ports.Remove(Port);
                bench.Ports[Other] = line;
            }
        ));
        Assert.True(bench.Said($"found on {Other}"));
        Assert.Equal(4, bench.Stored().Count);
    }

    [Fact]
    public void Two_loggers_whose_ports_change_places_at_a_restart_stay_with_their_rams()
    {
        using var bench = new LogBench();
        LockstepLine one = bench.Plug(Port, "logger-1");
        LockstepLine two = bench.Plug(Other, "logger-2");
        LogSettings settings = bench.Settings(LogBench.RamOn(Port, "mill"), LogBench.RamOn(Other, "orchard"));
        bench.Run(settings, TimeSpan.FromSeconds(90));
        (bench.Ports[Port], bench.Ports[Other]) = (two, one);
        bench.Clock.Advance(TimeSpan.FromHours(1));
        bench.Run(settings, TimeSpan.FromSeconds(90));
        Assert.Equal(["logger-1"], Devices(bench, "mill"));
        Assert.Equal(["logger-2"], Devices(bench, "orchard"));
    }

    [Fact]
    public void Another_logger_on_a_rams_own_port_is_taken_for_its_new_one_when_the_old_one_is_nowhere()
    {
        using var bench = new LogBench();
        bench.Plug(Port, "old-one1");
        LogSettings settings = bench.Settings(LogBench.RamOn(Port));
        bench.Run(settings, TimeSpan.FromMinutes(3));
        bench.Plug(Port, "new-one1");
        bench.Clock.Advance(TimeSpan.FromHours(1));
        bench.Run(settings, TimeSpan.FromMinutes(3));
        Assert.Equal(["new-one1", "old-one1"], Devices(bench, "mill"));
        Assert.True(bench.Said("taken for this ram's new one"));

        // A logger named by its id is never replaced.
        bench.Clock.Advance(TimeSpan.FromHours(1));
        bench.Run(settings with { Rams = [settings.Rams[0] with { Logger = "0011223344556677" }] }, TimeSpan.FromMinutes(3));
        Assert.Equal(2, bench.Stored().Count);
        Assert.True(bench.Said("is not this ram's"));
    }

    [Fact]
    public void A_clock_that_is_set_back_or_forward_holds_nothing_up_and_overwrites_nothing()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        bench.Run(
            bench.Settings(LogBench.RamOn(Port)),
            TimeSpan.FromHours(3),
            (TimeSpan.FromMinutes(60), () => bench.Clock.Set(TimeSpan.FromMinutes(-60))),
            (TimeSpan.FromMinutes(120), () => bench.Clock.Set(TimeSpan.FromHours(24))));

        // Whatever the calendar does, three hours hold twelve quarters, but for the ones at the steps.
        Assert.InRange(bench.Stored().Count, 12, 14);
        Assert.Equal(bench.Stored().Count, bench.Files().Length);
        Assert.True(bench.Said("set back by 3600 s") || bench.Said("set back by 3599 s"), string.Join("; ", bench.News.Select(n => n.Words)));
        Assert.True(bench.Said("set forward by 86400 s") || bench.Said("set forward by 86399 s"));
    }

    [Fact]
    public void A_ram_that_stops_between_two_bursts_gets_one_more_at_once_and_another_when_it_starts()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        LogSettings settings = bench.Settings(LogBench.RamOn(Port)) with { Between = new BetweenSettings { ExtraADay = 3 }, Every = TimeSpan.FromMinutes(30) };
        bench.Clock.Advance(TimeSpan.FromMinutes(24));
        bench.Run(
            settings,
            TimeSpan.FromMinutes(6),
            (TimeSpan.FromMinutes(2), () => bench.Ram.Stopped = true),
            (TimeSpan.FromMinutes(4), () => bench.Ram.Stopped = false));
        output.WriteLine(string.Join("\n", bench.News.Select(n => n.Words)));
        Assert.True(bench.Said("It stopped beating"));
        Assert.True(bench.Said("It beats again"));
        IReadOnlyList<BurstState> bursts = bench.Stored();
        Assert.Equal([RamState.Beating, RamState.StoppedShut, RamState.Beating], bursts.Select(b => b.State));
    }

    [Fact]
    public void A_store_that_fails_keeps_bursts_waiting_and_gets_each_once_when_it_is_back()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        bool down = false;
        bench.OpenStore = path => down ? throw new IOException("the server doesn't answer") : new FailingStore(SqliteSeasonStore.Open(path, create: true), () => down);
        int waiting = 0;
        bench.Run(
            bench.Settings(LogBench.RamOn(Port)),
            TimeSpan.FromMinutes(80),
            (TimeSpan.FromMinutes(10), () => down = true),
            (TimeSpan.FromMinutes(50), () =>
            {
                waiting = bench.Files().Count(f => f.Contains("pending", StringComparison.Ordinal));
                down = false;
            }
        ));
        Assert.Equal(2, waiting);
        Assert.True(bench.Said("doesn't answer"));
        Assert.True(bench.Said("takes bursts again"));
        Assert.Equal(6, bench.Stored().Count);
        Assert.DoesNotContain(bench.Files(), f => f.Contains("pending", StringComparison.Ordinal));
    }

    [Fact]
    public void Bursts_that_a_crash_left_half_done_are_finished_at_the_next_start()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        LogSettings settings = bench.Settings(LogBench.RamOn(Port));
        bench.Run(settings, TimeSpan.FromMinutes(40));
        string[] files = [.. bench.Files().Order()];
        Assert.Equal(4, files.Length);
        string pending = Path.Combine(bench.Bursts, "mill", "pending");

        // Stored, but not moved yet; recorded, but never closed: its last quarter is lost; begun, and nothing or hardly anything written.
        File.Move(files[1], Path.Combine(pending, Path.GetFileName(files[1])));
        byte[] torn = File.ReadAllBytes(files[2]);
        File.WriteAllBytes(Path.Combine(pending, "20260228T120000Z.cbrec.part"), torn[..(torn.Length * 3 / 4)]);
        File.WriteAllBytes(Path.Combine(pending, "20260228T121500Z.cbrec.part"), []);
        string brief = Path.Combine(pending, "20260228T123000Z.cbrec.part");
        File.WriteAllBytes(brief, torn[..3000]);
        Assert.InRange(RecordingScan.Of(brief).Samples, 1, 900);
        bench.Run(settings, TimeSpan.FromMinutes(1));
        output.WriteLine(string.Join("\n", bench.StoredWhole().Select(b => $"{b.Source} {b.StartUtc:o} {b.DurationS}")));
        Assert.Equal(5, bench.Stored().Count);
        Assert.Contains(bench.StoredWhole(), b => b.Source == "mill/2026-02-28/20260228T120000Z.cbrec" && b.Completeness != "complete");
        Assert.Empty(Directory.GetFiles(pending));
        Assert.Equal(6, bench.Files().Length);
        Assert.True(File.Exists(Path.Combine(bench.Bursts, "mill", "2026-02-28", "20260228T123000Z.cbrec")));
        Assert.False(bench.Said("unreadable"));
    }

    [Fact]
    public void A_file_that_is_no_recording_is_put_aside_and_told()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        LogSettings settings = bench.Settings(LogBench.RamOn(Port));
        Directory.CreateDirectory(Path.Combine(bench.Bursts, "mill", "pending"));
        File.WriteAllText(Path.Combine(bench.Bursts, "mill", "pending", "20260228T120000Z.cbrec"), "no recording");
        bench.Run(settings, TimeSpan.FromMinutes(1));
        Assert.True(File.Exists(Path.Combine(bench.Bursts, "mill", "unreadable", "20260228T120000Z.cbrec")));
        Assert.True(bench.Said("unreadable"));
        Assert.Single(bench.Stored());
    }

    [Fact]
    public void Where_room_is_short_the_oldest_ordinary_bursts_go_and_no_summary_does()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        LogSettings settings = bench.Settings(LogBench.RamOn(Port)) with { Disk = new DiskSettings { MostBytes = 100_000, BaselineDays = 0, LeastFreeBytes = 1 } };
        bench.Run(settings, TimeSpan.FromHours(4));
        Assert.Equal(17, bench.Stored().Count);
        string[] left = [.. bench.Files().Order(StringComparer.Ordinal)];
        Assert.InRange(left.Sum(f => new FileInfo(f).Length), 1, 100_000);
        Assert.True(left.Length >= 2, "some are left");
        Assert.All(left, f => Assert.True(string.CompareOrdinal(Path.GetFileName(f), "20260301T02") > 0, f));
    }

    [Fact]
    public void Two_logs_in_one_folder_are_refused()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        LogSettings settings = bench.Settings(LogBench.RamOn(Port));
        Directory.CreateDirectory(settings.Folder);
        using var taken = new FileStream(Path.Combine(settings.Folder, "log.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        Assert.Contains("Another log works in", Assert.Throws<Site.InputException>(() => bench.Run(settings, TimeSpan.FromMinutes(1))).Message, StringComparison.Ordinal);
    }

    private static IEnumerable<string> Devices(LogBench bench, string ram) => bench.Files()
        .Where(f => f.Contains($"{Path.DirectorySeparatorChar}{ram}{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
        .Select(f => System.Text.Encoding.ASCII.GetString(Convert.FromHexString(Recording.Reading.RecordingScan.Of(f).Sessions[0].Header!.Device)))
        .Distinct().Order();

}
