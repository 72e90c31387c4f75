using Clackbeat.Logger.Alone;
using Clackbeat.Protocol;
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

    [Fact]
    public void AFullCardTakesNoMoreAndKeepsWhatItHas()
    {
        using LoneBench bench = new(cardBytes: 30_000);
        bench.Run(10 * LoneBench.IntervalS);
        Dictionary<string, byte[]> kept = bench.Files.ToDictionary(f => f, File.ReadAllBytes);
        Assert.InRange(kept.Count, 4, 6);
        bench.Run(10 * LoneBench.IntervalS);
        Assert.Equal(kept.Keys, bench.Files);
        Assert.All(kept, old => Assert.Equal(old.Value, File.ReadAllBytes(old.Key)));
        Assert.All(kept.Keys, file => Assert.NotEqual(0, new FileInfo(file).Length));
    }

    [Fact]
    public void AKeeperWhoTakesTheOldBurstsOffAFullCardFindsNewOnesUnderNewNumbers()
    {
        using LoneBench bench = new(cardBytes: 30_000);
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
}
