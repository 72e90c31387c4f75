using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;
using Clackbeat.Unattended.Live;
using Clackbeat.Unattended.Tests.Bench;
using Xunit.Abstractions;

namespace Clackbeat.Unattended.Tests.Live;

/// <summary>The log on the bench, through what happens in years at a stream.</summary>
public class LogRunTests(ITestOutputHelper output)
{
    private const string Port = "/bench/ttyUSB0";

    [Fact]
    public void A_day_brings_a_burst_at_every_quarter_of_the_clock_and_each_is_stored_once()
    {
        using var bench = new LogBench();
        bench.Plug(Port);
        bench.Run(bench.Settings(LogBench.RamOn(Port)), TimeSpan.FromHours(6));
        IReadOnlyList<SeasonBurst> bursts = bench.StoredWhole();
        foreach (LogNews news in bench.News)
        {
            output.WriteLine($"{news}");
        }

        // The first at once, then 00:15 to 06:00; the clock stood at 00:07.
        Assert.Equal(25, bursts.Count);
        Assert.All(bursts.Skip(1), b => Assert.InRange(OffQuarterS(b.StartUtc), 0, 2.5));
        Assert.All(bursts, b => Assert.Equal(RamState.Beating, b.State));
        Assert.All(bursts, b => Assert.InRange(b.Figures[SeasonFigure.Rate].Value, 0.97 * bench.Ram.RatePerMin, 1.03 * bench.Ram.RatePerMin));
        Assert.Equal(bursts.Count, bench.Files().Length);
        Assert.All(bursts, b => Assert.True(File.Exists(Path.Combine(bench.Bursts, b.Source)), b.Source));
        Assert.DoesNotContain(bench.News, n => n.IsTrouble);
    }

    private static double OffQuarterS(DateTimeOffset time) => time.TimeOfDay.TotalSeconds % 900;
}
