using Clackbeat.Logger.Alone;
using Clackbeat.Protocol;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.Logger.Tests.Alone;

/// <summary>What months outdoors do to a card and its power. Nothing recorded is ever written over.</summary>
public class TroubleTests
{
    [Fact]
    public void APowerCutInTheMiddleOfABurstCostsThatBurstAndNoNumberIsUsedTwice()
    {
        using LoneBench bench = new();

        // Bursts at 3, 60 and 120 s; the third is cut, and the schedule begins anew at 121.5 s with the power.
        bench.Run(6.5 * LoneBench.IntervalS, new VirtualFaults { PowerCutAtS = (2 * LoneBench.IntervalS) + 1.5 });
        Assert.Equal([1u, 2, 3, 4, 5, 6, 7, 8], bench.Numbers);
        Assert.Null(bench.Read(3).End);
        CardFile after = bench.Read(4);
        Assert.Equal((WakeCauses.Power, 0u), (after.Start.Wake, after.Start.SleptMilliseconds));
        Assert.Equal(4u, after.Start.Boot);
        Assert.NotNull(after.End);
    }

    [Fact]
    public void ALongBurstKeepsWhatItHadAMinuteBeforeAPowerCut()
    {
        using LoneBench bench = new();
        bench.Settings.BurstLengthMilliseconds = 300_000;
        bench.Settings.BurstIntervalMilliseconds = 600_000;
        bench.Run(250);
        CardFile cut = bench.Read(1);
        Assert.Null(cut.End);
        Assert.InRange(cut.Samples.Count, (250 - 62) * 1000, 250 * 1000);
    }

    [Fact]
    public void PowerThatGoesAgainAndAgainNeverCostsAnOldBurst()
    {
        using LoneBench bench = new();
        Dictionary<string, byte[]> kept = [];
        Random random = new(6);
        for (int round = 0; round < 40; round++)
        {
            bench.Run(random.NextDouble() * 2 * LoneBench.IntervalS);
            Assert.All(kept, old => Assert.Equal(old.Value, File.ReadAllBytes(old.Key)));
            kept = bench.Files.ToDictionary(f => f, File.ReadAllBytes);
        }

        Assert.Contains(bench.Numbers, n => bench.Read(n).End is not null);
    }

    // A burst of two seconds is some 8.5 KB. The old logger wrote on until the card took nothing more, and then waited for
    // ever, after a power cycle too; the virtual card hangs like that when it is handed anything it has no room for.
    [Theory]
    [InlineData(0)]
    [InlineData(500)]
    [InlineData(8_000)]
    [InlineData(30_000)]
    [InlineData(31_000)]
    [InlineData(33_500)]
    public void AFullCardTakesNoMoreKeepsWholeBurstsAndHangsNothing(long cardBytes)
    {
        using LoneBench bench = new(cardBytes);
        bench.Run(10 * LoneBench.IntervalS);
        var kept = bench.Files.ToDictionary(f => f, File.ReadAllBytes);
        Assert.InRange(kept.Count, (cardBytes - 4000) / 9000, cardBytes / 8000);
        Assert.All(bench.Numbers, n => Assert.NotNull(bench.Read(n).End));
        bench.Run(10 * LoneBench.IntervalS);
        Assert.Equal(kept.Keys, bench.Files);
        Assert.All(kept, old => Assert.Equal(old.Value, File.ReadAllBytes(old.Key)));
        Assert.False(bench.Card.HasHung);
    }

    // More samples come late than was reserved for: the card fills up within the burst.
    [Fact]
    public void ACardThatFillsUpWithinABurstStillTakesItsEnd()
    {
        using LoneBench bench = new(cardBytes: 24_000);
        bench.Settings.BurstLengthMilliseconds = 4_000;
        bench.Run(3 * LoneBench.IntervalS, new VirtualFaults { JitterMicroseconds = 900 });
        CardFile only = bench.Read(Assert.Single(bench.Numbers));
        Assert.NotNull(only.End);
        Assert.Equal(StorageStates.Full, only.Health!.Storage);
        Assert.InRange(only.Samples.Count, 1000, 3900);
        Assert.False(bench.Card.HasHung);
    }

    [Fact]
    public void ALockedCardStopsNothingAndOneThatIsUnlockedIsUsed()
    {
        using LoneBench bench = new();
        bench.Run(2.5 * LoneBench.IntervalS);
        Assert.Equal([1u, 2, 3], bench.Numbers);
        bench.Card.IsReadOnly = true;
        bench.Run(3.5 * LoneBench.IntervalS);
        Assert.Equal([1u, 2, 3], bench.Numbers);
        bench.Card.IsReadOnly = false;
        bench.Run(1.5 * LoneBench.IntervalS);
        Assert.Equal([1u, 2, 3, 4, 5], bench.Numbers);
        Assert.All(bench.Numbers, n => Assert.NotNull(bench.Read(n).End));
    }

    [Fact]
    public void ACardWhoseFilesCannotGrowLeavesNoEmptyOnes()
    {
        using LoneBench bench = new();
        bench.Card.CannotGrow = true;
        bench.Run(2.5 * LoneBench.IntervalS);
        Assert.Empty(bench.Numbers);
        bench.Card.CannotGrow = false;
        bench.Run(0.5 * LoneBench.IntervalS);
        Assert.NotNull(bench.Read(Assert.Single(bench.Numbers)).End);
    }

    // Pulled in the middle of the second burst and put back before the fourth.
    [Fact]
    public void ACardPulledWithinABurstCostsThatBurstAndIsUsedAgainWhenItIsBack()
    {
        using LoneBench bench = new();
        bench.Card.PulledAtS = LoneBench.IntervalS + 1.5;
        bench.Card.BackAtS = (2.5 * LoneBench.IntervalS) + 1;
        bench.Run(4.5 * LoneBench.IntervalS);
        Assert.Equal([1u, 2, 3, 4], bench.Numbers);
        Assert.Null(bench.Read(2).End);
        Assert.All([1u, 3u, 4u], n => Assert.NotNull(bench.Read(n).End));
    }

    // Battery counts of the bench are 2222: at a cut-off above them nothing is begun, and nothing is left on the card.
    [Fact]
    public void AnEmptyBatteryBeginsNoBurst()
    {
        using LoneBench bench = new();
        bench.Settings.BatteryCutOffCounts = LoneBench.TrueSeconds.BatteryCounts + 1;
        bench.Run(3.5 * LoneBench.IntervalS);
        Assert.Empty(bench.Numbers);
    }

    // The battery gives out 10 s into a burst of 30 s: the file is closed with its end while there is current for it.
    [Fact]
    public void ABatteryThatRunsDownWithinABurstClosesTheFileFirst()
    {
        using LoneBench bench = new();
        bench.Settings.BurstLengthMilliseconds = 30_000;
        bench.Settings.BatteryCutOffCounts = 2000;
        VirtualLogger.VirtualLogger.RunAlone(new RunningDown(LoneBench.BurstS + 10), bench.Options(), 50, bench.Card);
        CardFile file = bench.Read(Assert.Single(bench.Numbers));
        Assert.NotNull(file.End);
        Assert.InRange(file.Samples.Count, 8_000, 14_000);
        Assert.InRange(file.Health!.BatteryCounts, 1, 1999);
    }

    [Fact]
    public void AKeeperWhoTakesTheOldBurstsOffAFullCardFindsNewOnesUnderNewNumbers()
    {
        using LoneBench bench = new(cardBytes: 31_000);
        bench.Run(10 * LoneBench.IntervalS);
        uint last = bench.Numbers.Max();
        foreach (string file in bench.Files.ToList())
        {
            File.Delete(file);
        }

        bench.Run(1.5 * LoneBench.IntervalS);
        Assert.Equal([last + 1, last + 2], bench.Numbers);
    }

    [Fact]
    public void ANumberWhoseFileCannotBeMadeIsPassedOver()
    {
        using LoneBench bench = new();
        bench.Card.IsWorn = name => name == BurstNames.File(3);
        bench.Run(4.5 * LoneBench.IntervalS);
        Assert.Equal([1u, 2, 4, 5, 6], bench.Numbers);
        Assert.Equal(StorageStates.Ready, bench.Read(5).Health!.Storage);
    }

    [Fact]
    public void ACardThatTakesNoFileAtAllStopsNothingButTheBursts()
    {
        using LoneBench bench = new();
        bench.Card.IsWorn = _ => true;
        bench.Run(3.5 * LoneBench.IntervalS);
        Assert.Empty(bench.Numbers);
        bench.Card.IsWorn = _ => false;
        bench.Run(1.5 * LoneBench.IntervalS);
        Assert.Equal(2, bench.Numbers.Count());
        Assert.Equal(5u, bench.Read(bench.Numbers.Min()).Start.Boot);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void OneDamagedStateFileLeavesTheOther(int slot)
    {
        using LoneBench bench = new();
        bench.Run(3.5 * LoneBench.IntervalS);
        File.WriteAllBytes(bench.StatePath(slot), [1, 2, 3]);
        bench.Run(0.5 * LoneBench.IntervalS);
        Assert.Equal([1u, 2, 3, 4, 5], bench.Numbers);
        Assert.Equal(5u, bench.Read(5).Start.Boot);
    }

    [Fact]
    public void WithoutAnyStateFileTheNumbersGoOnBehindWhatIsOnTheCard()
    {
        using LoneBench bench = new();
        bench.Settings.BurstLengthMilliseconds = 20;
        bench.Run(120.5 * LoneBench.IntervalS);
        File.Delete(bench.StatePath(0));
        File.WriteAllText(bench.StatePath(1), "not a frame");
        bench.Run(0.5 * LoneBench.IntervalS);
        Assert.Equal(122u, bench.Numbers.Max());
        Assert.Equal(1u, bench.Read(122).Start.Boot);
    }

    [Fact]
    public void WithoutACardTheScheduleGoesOnAndACardThatComesIsUsed()
    {
        using LoneBench bench = new();
        bench.Card.IsPulled = true;
        bench.Run(3.5 * LoneBench.IntervalS);
        bench.Card.IsPulled = false;
        Assert.Empty(bench.Numbers);
        bench.Run(1.5 * LoneBench.IntervalS);
        Assert.Equal([1u, 2], bench.Numbers);
    }

    private sealed class RunningDown(double emptyAtS) : IConverterSource
    {
        public bool TryRead(int channel, double timeS, out int counts)
        {
            counts = channel == Channels.Battery && timeS > emptyAtS ? 1500 : 2222;
            return true;
        }
    }
}
