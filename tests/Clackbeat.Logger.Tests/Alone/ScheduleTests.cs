using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.Logger.Tests.Alone;

/// <summary>Wake, one burst into one file, sleep: as the frames tell it and as it truly was.</summary>
public class ScheduleTests
{
    [Fact]
    public void EachBurstIsAFileThatTellsItsNumberItsBootAndItsSleep()
    {
        using LoneBench bench = new();
        bench.Run(10 * LoneBench.IntervalS);
        Assert.Equal(Enumerable.Range(1, 10).Select(n => (uint)n), bench.Numbers);
        for (uint burst = 1; burst <= 10; burst++)
        {
            CardFile file = bench.Read(burst);
            Assert.Equal([Kinds.Hello, Kinds.BurstStart], file.Kinds.Take(2));
            Assert.Equal([Kinds.BurstEnd, Kinds.Health], file.Kinds.TakeLast(2));
            Assert.Equal((burst, burst), (file.Start.Burst, file.Start.Boot));
            Assert.Equal(burst == 1 ? WakeCauses.Power : WakeCauses.Timer, file.Start.Wake);
            Assert.InRange(file.Samples.Count, (LoneBench.BurstS * 1000) - 2, (LoneBench.BurstS * 1000) + 2);
            Assert.Equal(((uint)file.Samples.Count, 0u), (file.End!.Samples, file.End.Lost));
        }
    }

    [Fact]
    public void BurstsAreAnIntervalApartInTrueTimeAndTheFramesGiveItBack()
    {
        using LoneBench bench = new();
        bench.Run(20 * LoneBench.IntervalS);
        double told = 0;
        for (uint burst = 1; burst <= 20; burst++)
        {
            CardFile file = bench.Read(burst);
            told += burst == 1 ? 0 : (bench.Read(burst - 1).End!.TimeMicroseconds * 1e-6) + (file.Start.SleptMilliseconds * 1e-3);
            double firstS = told + (file.Samples[0].DeviceTimeMicroseconds * 1e-6);

            // The converter gives whole true seconds.
            Assert.InRange(file.Samples[0].Counts, firstS - 1.01, firstS + 0.01);
            Assert.InRange<double>(file.Samples[0].Counts, ((burst - 1.0) * LoneBench.IntervalS) - 1, ((burst - 1.0) * LoneBench.IntervalS) + 4);
        }
    }

    // What the sleep clock's error does is not the logger's to hide: it tells what it asked for.
    [Fact]
    public void ASleepClockThatRunsLateShowsAsWhatWasAskedForAgainstTrueTime()
    {
        using LoneBench bench = new();
        bench.Run(20 * LoneBench.IntervalS, new VirtualFaults { SleepError = 0.02 });
        CardFile last = bench.Read(bench.Numbers.Max());
        double asked = bench.Numbers.Skip(1).Sum(b => bench.Read(b).Start.SleptMilliseconds * 1e-3);
        double awake = bench.Numbers.SkipLast(1).Sum(b => bench.Read(b).End!.TimeMicroseconds * 1e-6);
        double truly = last.Samples[0].Counts - (last.Samples[0].DeviceTimeMicroseconds * 1e-6);
        Assert.InRange(truly, awake + (1.02 * asked) - 1.1, awake + (1.02 * asked) + 0.1);
    }

    // Two per cent off over twenty minutes of sleep are 23 s; a clock chip tells each burst to its own uncertainty.
    [Fact]
    public void AClockChipTellsTheCalendarThroughSleep()
    {
        const long set = 1_800_000_000_000;
        using LoneBench bench = new();
        bench.Run(
            20 * LoneBench.IntervalS, new VirtualFaults { SleepError = 0.02 },
            o => o with { HasClockChip = true, ClockSetMilliseconds = set });
        Assert.All(bench.Numbers, burst =>
        {
            CardFile file = bench.Read(burst);
            Assert.Equal((ClockSources.Battery, 1000u), (file.TimeMark!.Source, file.TimeMark.UncertaintyMilliseconds));

            // The converter gives whole true seconds.
            double toldS = (file.TimeMark.CalendarMilliseconds - set) * 1e-3;
            double firstS = toldS + ((file.Samples[0].DeviceTimeMicroseconds - file.TimeMark.TimeMicroseconds) * 1e-6);
            Assert.InRange(file.Samples[0].Counts, firstS - 1.05, firstS + 0.05);
        });
    }

    // A sensor left on draws ten times what the sleeping board does, and empties the battery alone.
    [Fact]
    public void TheSensorIsOffInSleepAndHasSettledBeforeTheFirstSample()
    {
        using LoneBench bench = new();
        List<bool> inSleep = [];
        bench.Settings.SensorSettleMilliseconds = 900;
        bench.Run(5 * LoneBench.IntervalS, change: o => o with { SensorSettlesS = 0.85, SensorInSleep = inSleep.Add });
        Assert.Equal(5, inSleep.Count);
        Assert.DoesNotContain(true, inSleep);

        // The converter tells the true second, and nothing but 0 while the sensor has not settled; the first burst lies in second 3.
        Assert.All(bench.Numbers, n => Assert.All(bench.Read(n).Samples, s => Assert.NotEqual(0, s.Counts)));
    }

    [Fact]
    public void CardBatteryAndClockHealthStandInEachFile()
    {
        using LoneBench bench = new(cardBytes: 10_000_000);
        bench.Run(2.5 * LoneBench.IntervalS);
        Health health = bench.Read(2).Health!;
        Assert.Equal(LoneBench.TrueSeconds.BatteryCounts, health.BatteryCounts);
        Assert.Equal(StorageStates.Ready, health.Storage);
        Assert.InRange(health.FreeKib, 9_700u, 9_766u);
        Assert.Equal(2u, health.NewestBurst);
        Assert.Equal(ClockSources.None, health.Clock);
    }

    [Fact]
    public void AHundredBurstsGoIntoAFolder()
    {
        using LoneBench bench = new();
        bench.Settings.BurstLengthMilliseconds = 20;
        bench.Run(205 * LoneBench.IntervalS);
        Assert.Equal(205, bench.Numbers.Count());
        Assert.Equal(
            ["00000000", "00000100", "00000200"], Directory.EnumerateDirectories(bench.Folder).Select(Path.GetFileName).Order());
        Assert.Equal(99, Directory.EnumerateFiles(Path.Combine(bench.Folder, "00000000")).Count());
    }

    [Fact]
    public void TheVirtualLoggerPassesAMonthInSeconds()
    {
        using LoneBench bench = new();
        bench.Settings.BurstLengthMilliseconds = 20;
        bench.Settings.BurstIntervalMilliseconds = 3_600_000;
        bench.Run(30 * 24 * 3600.0);
        Assert.Equal(30 * 24, bench.Numbers.Count());
        Assert.Equal(30u * 24, bench.Read(30 * 24).Start.Boot);
    }
}
