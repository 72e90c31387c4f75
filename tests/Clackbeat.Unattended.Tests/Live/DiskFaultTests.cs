using Clackbeat.Season.Store;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Tests.Bench;
using Xunit.Abstractions;

namespace Clackbeat.Unattended.Tests.Live;

/// <summary>What disks do to a log: it says so, loses nothing it had, and goes on.</summary>
public class DiskFaultTests(ITestOutputHelper output)
{
    private const string Port = "/bench/ttyUSB0";
    private static readonly TimeSpan Begins = TimeSpan.FromMinutes(30);
    private static readonly TimeSpan Ends = TimeSpan.FromMinutes(75);
    private static readonly TimeSpan Whole = TimeSpan.FromMinutes(120);

    [SkippableFact]
    public void A_full_disk_is_told_and_bursts_go_on_once_there_is_room()
    {
        using var disk = SmallDisk.Make(1_500_000);
        using LogBench bench = Run(disk, disk.Fill, disk.Free);
        Assert.InRange(bench.News.Count(n => n.Words.Contains("Check the disk", StringComparison.Ordinal)), 1, 2);
        Assert.True(bench.Said("recorded whole again"));
        AssertGoesOn(bench);
    }

    [SkippableFact]
    public void A_disk_that_is_pulled_out_is_told_and_bursts_go_on_once_it_is_back()
    {
        using var disk = SmallDisk.Make(8_000_000);
        using LogBench bench = Run(disk, disk.PullOut, () => disk.PutIn());
        Assert.True(bench.Said("Check the disk"));
        AssertGoesOn(bench);
    }

    [SkippableFact]
    public void A_burst_that_the_disk_no_longer_gives_holds_up_no_other()
    {
        Skip.IfNot(File.Exists("/proc/self/mem"), "needs a file whose reading fails");
        using var bench = new LogBench();
        bench.Plug(Port);
        string pending = Directory.CreateDirectory(Path.Combine(bench.Bursts, "mill", "pending")).FullName;
        string bad = Path.Combine(pending, "20260228T120000Z.cbrec");
        File.CreateSymbolicLink(bad, "/proc/self/mem");
        bench.Run(bench.Settings(LogBench.RamOn(Port)), TimeSpan.FromMinutes(40));
        output.WriteLine(string.Join("\n", bench.News.Select(n => n.Words)));
        Assert.True(bench.Said("can't be read now and waits"));
        Assert.Equal(4, bench.Stored().Count);
        Assert.Equal([bad], Directory.GetFiles(pending));
    }

    [Fact]
    public void Files_that_can_not_be_put_away_hold_up_no_burst_and_are_put_away_later()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        string inTheWay = Path.Combine(Directory.CreateDirectory(Path.Combine(bench.Bursts, "mill")).FullName, "2026-03-01");
        File.WriteAllText(inTheWay, "no folder");
        bench.Run(bench.Settings(LogBench.RamOn(Port)), TimeSpan.FromMinutes(70), (TimeSpan.FromMinutes(50), () => File.Delete(inTheWay)));
        Assert.True(bench.Said("can't be moved out of pending"));
        Assert.Equal(6, bench.Stored().Count);
        Assert.Equal(6, Directory.GetFiles(inTheWay).Length);
    }

    [Fact]
    public void A_damaged_beginning_costs_an_unfinished_burst_no_more_than_that()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        LogSettings settings = bench.Settings(LogBench.RamOn(Port));
        bench.Run(settings, TimeSpan.FromMinutes(5));
        string file = bench.Files().Single();
        byte[] spoilt = File.ReadAllBytes(file);
        spoilt.AsSpan(0, 40).Clear();
        string part = Path.Combine(bench.Bursts, "mill", "pending", "20260301T000100Z.cbrec.part");
        File.WriteAllBytes(part, spoilt);
        bench.Run(settings, TimeSpan.FromMinutes(1));
        Assert.False(File.Exists(part));
        Assert.Equal(spoilt, File.ReadAllBytes(bench.Files("20260301T000100Z*").Single()));
    }

    private static LogBench Run(SmallDisk disk, Action trouble, Action over)
    {
        var bench = new LogBench(disk.Place);
        bench.Plug(Port);
        bench.Run(bench.Settings(LogBench.RamOn(Port)), Whole, (Begins, trouble), (Ends, over));
        return bench;
    }

    // From 00:07 on: 00:15 and 00:30 were before, the quarters from 01:30 to 02:00 come behind.
    private void AssertGoesOn(LogBench bench)
    {
        output.WriteLine(string.Join("\n", bench.News.Select(n => n.Words)));
        Assert.False(bench.Said("Something went wrong"));
        IReadOnlyList<SeasonBurst> stored = bench.StoredWhole();
        DateTimeOffset back = LogBench.Start + Ends;
        Assert.Equal(3, stored.Count(b => b.StartUtc < LogBench.Start + Begins));
        Assert.Equal(3, stored.Count(b => b.StartUtc > back));
        Assert.DoesNotContain(bench.Files("*.cbrec*"), f => f.Contains("pending", StringComparison.Ordinal));
        string[] files = [.. bench.Files().Select(f => Path.GetFileName(f)!)];
        Assert.Empty(stored.Select(b => Path.GetFileName(b.Source)).Except(files));
    }
}
