using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Tests.Bench;
using Xunit.Abstractions;

namespace Clackbeat.Unattended.Tests.Live;

/// <summary>A month of the log on the bench's clock; a day of it unless CLACKBEAT_LONG=1 asks for all.</summary>
public class MonthTests(ITestOutputHelper output)
{
    private static readonly int Days = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 30 : 1;

    [Fact]
    public void A_month_misses_no_quarter_stores_none_twice_and_memory_stays_flat()
    {
        using var bench = new LogBench();
        bench.Plug("/bench/ttyUSB0");
        TimeSpan every = TimeSpan.FromMinutes(Days > 1 ? 15 : 60);
        LogSettings settings = bench.Settings(LogBench.RamOn("/bench/ttyUSB0")) with
        {
            Every = every,
            Disk = new DiskSettings { MostBytes = Days * 40_000, LeastFreeBytes = 1, BaselineDays = 1 },
        };
        List<long> memory = [];
        (TimeSpan, Action) Measure(double day) => (TimeSpan.FromDays(day), () => memory.Add(GC.GetTotalMemory(forceFullCollection: true)));
        bench.Run(settings, TimeSpan.FromDays(Days), [.. Enumerable.Range(1, 9).Select(i => Measure(Days * i / 10.0))]);
        int stored = bench.Stored().Count;
        output.WriteLine($"{stored} bursts, memory in MB: {string.Join(" ", memory.Select(m => (m / 1e6).ToString("0.0", System.Globalization.CultureInfo.InvariantCulture)))}");

        // One at once, then one a period.
        int slots = (int)(TimeSpan.FromDays(Days) / every);
        Assert.InRange(stored, slots, slots + 1);
        Assert.DoesNotContain(bench.News, n => n.IsTrouble && !n.Words.StartsWith("Room is short", StringComparison.Ordinal));
        Assert.True(bench.Files().Sum(f => new FileInfo(f).Length) <= settings.Disk.MostBytes);

        // A burst's samples are some hundred kilobytes; what grew with the bursts would show in tens of megabytes.
        Assert.True(memory[^1] - memory[1] < 8_000_000, "memory grew");
    }
}
