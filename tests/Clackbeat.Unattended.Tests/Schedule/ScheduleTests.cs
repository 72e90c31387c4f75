using Clackbeat.Season.Schedule;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Unattended.Tests.Bench;
using CsCheck;

namespace Clackbeat.Unattended.Tests.Schedule;

public class ScheduleTests
{
    [Fact]
    public void The_next_burst_lies_ahead_by_a_period_at_most_and_on_the_same_grid_from_wherever_one_looks() =>
        Gen.Select(Gen.Long[0, 4_000_000_000], Gen.Int[1, 86_400]).Sample((seconds, every) =>
        {
            var now = DateTimeOffset.FromUnixTimeSeconds(seconds);
            var period = TimeSpan.FromSeconds(every);
            DateTimeOffset next = BurstClock.Next(now, period);
            Assert.InRange((next - now).TotalSeconds, 1e-7, every);
            Assert.Equal(0, next.ToUnixTimeSeconds() % every);
            Assert.Equal(next, BurstClock.Next(next.AddTicks(-1), period));
            Assert.Equal(next + period, BurstClock.Next(next, period));
        });

    /// <summary>Days on which clocks change, by the zones' own rules: 29 March 2026 in Europe, 8 March in the United States, 4 October in Australia.</summary>
    [Theory]
    [InlineData("Europe/London", 2026, 3, 28)]
    [InlineData("America/New_York", 2026, 3, 7)]
    [InlineData("Australia/Lord_Howe", 2026, 10, 3)]
    public void Summer_time_neither_drops_a_burst_nor_doubles_one(string zone, int year, int month, int day)
    {
        var local = TimeZoneInfo.FindSystemTimeZoneById(zone);
        var at = new DateTimeOffset(year, month, day, 0, 0, 0, TimeSpan.Zero);
        DateTimeOffset end = at.AddDays(3);
        bool changed = false;
        int bursts = 0;
        while ((at = BurstClock.Next(TimeZoneInfo.ConvertTime(at, local), TimeSpan.FromMinutes(15))) <= end)
        {
            bursts++;
            changed |= local.GetUtcOffset(at) != local.GetUtcOffset(end.AddDays(-3));
        }

        Assert.True(changed, "the zone's clocks change within these days");
        Assert.Equal(3 * 96, bursts);
    }

    [Fact]
    public void A_clock_that_is_set_is_noticed_and_one_that_is_steered_is_not()
    {
        var clock = new BenchClock(LogBench.Start);
        var watch = new StepWatch(clock);
        clock.Advance(TimeSpan.FromMinutes(10));
        clock.Set(TimeSpan.FromSeconds(0.3));
        Assert.Null(watch.Look());
        clock.Set(TimeSpan.FromHours(-1));
        clock.Advance(TimeSpan.FromSeconds(30));
        Assert.Equal(-3600, watch.Look()!.Value.TotalSeconds, 1e-6);
        Assert.Null(watch.Look());
    }

    [Fact]
    public void Ordinary_bursts_go_before_precious_ones_the_oldest_first_and_the_newest_of_a_ram_stays()
    {
        RawBurst Burst(string ram, int hour, bool precious) => new($"{ram}{hour}", ram, LogBench.Start.AddHours(hour), 10, precious);
        RawBurst[] all = [Burst("a", 1, true), Burst("a", 2, false), Burst("a", 3, true), Burst("a", 4, false), Burst("a", 5, false), Burst("b", 0, false)];
        string[] Going(long bytes) => [.. RawRule.ToRemove(all, bytes).Select(b => b.Path)];
        Assert.Empty(Going(0));
        Assert.Equal(["a2"], Going(1));
        Assert.Equal(["a2", "a4", "a1"], Going(25));
        Assert.Equal(["a2", "a4", "a1", "a3"], Going(1_000_000));
    }

    [Fact]
    public void A_steady_ram_is_left_alone_and_each_kind_of_change_is_seen_within_a_minute()
    {
        RamSite site = SiteFile.Parse(SiteTemplate.Text(Units.Metric), "the template");
        Assert.Null(First(site, 900, _ => { }));
        Assert.Equal(BeatChange.Stopped, First(site, 60, ram => ram.Stopped = true));
        Assert.Equal(BeatChange.Rate, First(site, 60, ram => ram.Hurry = 1.15));
        Assert.Equal(BeatChange.Rate, First(site, 60, ram => ram.Hurry = 0.85));
        Assert.Equal(BeatChange.Peak, First(site, 60, ram => ram.Harder = 1.3));
        Assert.Null(First(site, 200, ram => ram.Hurry = 1.03));
        Assert.Null(First(site, 200, ram => ram.Harder = 1.08));
    }

    // Five quiet minutes, then the change; what is told within so many seconds.
    private static BeatChange? First(RamSite site, double seconds, Action<LoopedRam> change)
    {
        var ram = new LoopedRam(site);
        var random = new Random(4);
        var analyser = new RamAnalyser(site);
        double t = 0;
        double Next()
        {
            t += 0.004;
            return ram.At(t)!.Value + (800 * (random.NextDouble() - 0.5));
        }

        for (int i = 0; i < 15_000; i++)
        {
            double p = Next();
            analyser.Add([t], [p]);
        }

        var watch = new ChangeWatch(site, new ChangeLimits(0.08, 0.15));
        watch.Expect(BurstSummariser.Of(site, analyser.Finish("burst"), LogBench.Start, new byte[32]));
        double changeS = t + 300;
        double endS = changeS + seconds;
        bool changed = false;
        while (t < endS)
        {
            double p = Next();
            BeatChange? told = watch.Add(t, p);
            if (told is not null)
            {
                Assert.True(changed, $"{told} before anything changed");
                return told;
            }

            if (!changed && t >= changeS)
            {
                changed = true;
                change(ram);
            }
        }

        return null;
    }
}
