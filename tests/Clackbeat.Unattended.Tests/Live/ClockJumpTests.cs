using Clackbeat.Season.Store;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Tests.Bench;
using Xunit.Abstractions;

namespace Clackbeat.Unattended.Tests.Live;

/// <summary>A computer's calendar does what it likes; bursts follow the quarters of whatever it says, and none is lost or doubled.</summary>
public class ClockJumpTests(ITestOutputHelper output)
{
    private const string Port = "/bench/ttyUSB0";

    /// <summary>Set in the middle of the burst of 00:15, at 00:15:10, by so many minutes; whole quarters, so that the quarters stay where they are.</summary>
    [Theory]
    [InlineData(60)]
    [InlineData(-60)]
    [InlineData(1440)]
    [InlineData(-1440)]
    public void Set_while_a_burst_is_taken_it_costs_no_burst_and_doubles_none(int byMinutes)
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        bench.Run(
            bench.Settings(LogBench.RamOn(Port)),
            TimeSpan.FromMinutes(60),
            (new TimeSpan(0, 8, 10), () => bench.Clock.Set(TimeSpan.FromMinutes(byMinutes))));
        IReadOnlyList<SeasonBurst> bursts = bench.StoredWhole();
        output.WriteLine(string.Join("\n", bursts.Select(b => $"{b.StartUtc:o} {b.DurationS:0} {b.Completeness}")));

        // 00:07, 00:15, 00:30, 00:45, 01:00 by the machine's own clock; a step forward makes the next due at once.
        Assert.InRange(bursts.Count, 5, 6);
        Assert.All(bursts, b => Assert.True(b.DurationS > 19.9));
        Assert.Equal(bursts.OrderBy(b => b.StartUtc).Select(b => b.Source), bursts.Select(b => b.Source));
        Assert.Equal(bursts.Count, bench.Files().Length);
        Assert.True(bench.Said(byMinutes > 0 ? "set forward" : "set back"));
        Assert.False(bench.Said("Something went wrong"));
    }

    /// <summary>A small computer without a clock chip: 1970 at its start, the true date once it has a network.</summary>
    [Fact]
    public void Bursts_of_a_clock_that_is_not_set_wait_and_get_their_true_times()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        TimeSpan off = LogBench.Start - DateTimeOffset.UnixEpoch.AddMinutes(7);
        bench.Clock.Set(-off);
        bench.Run(
            bench.Settings(LogBench.RamOn(Port)),
            TimeSpan.FromMinutes(70),
            (TimeSpan.FromMinutes(30), () => Assert.Equal((0, 3), (bench.Stored().Count, bench.Files().Length))),
            (TimeSpan.FromMinutes(40), () => bench.Clock.Set(off)));
        output.WriteLine(string.Join("\n", bench.News.Select(n => n.Words)));
        IReadOnlyList<SeasonBurst> bursts = bench.StoredWhole();
        int[] minutes = [0, 8, 23, 38, 40, 53, 68];
        Assert.Equal(minutes.Length, bursts.Count);
        Assert.All(bursts.Zip(minutes), b => Assert.InRange((b.First.StartUtc - LogBench.Start).TotalSeconds, (60 * b.Second) - 5, (60 * b.Second) + 10));
        Assert.True(bench.Said("can't be right") && bench.Said("clock is set"));
        Assert.All(bench.Files(), f => Assert.Contains("2026-03-01", f, StringComparison.Ordinal));
    }

    [Fact]
    public void Bursts_of_an_earlier_run_whose_time_nobody_knows_are_kept_and_told()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        LogSettings settings = bench.Settings(LogBench.RamOn(Port));
        TimeSpan off = LogBench.Start - DateTimeOffset.UnixEpoch.AddMinutes(7);
        bench.Clock.Set(-off);
        bench.Run(settings, TimeSpan.FromMinutes(10));
        bench.Clock.Set(off);
        bench.Run(settings, TimeSpan.FromMinutes(10));
        Assert.True(bench.Said("2 bursts of an earlier run"));
        Assert.Equal(2, bench.Files("19700101*").Count(f => f.Contains("unreadable", StringComparison.Ordinal)));
        Assert.All(bench.StoredWhole(), b => Assert.True(b.StartUtc >= LogBench.Start));
    }
}
