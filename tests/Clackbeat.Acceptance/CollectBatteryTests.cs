using Clackbeat.Logger;
using Clackbeat.Protocol;
using Clackbeat.Season.Store;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.Acceptance;

/// <summary>A keeper who takes the bursts over hears how the battery stands.</summary>
public sealed class CollectBatteryTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // 2222 counts: (142 mV + 2222 × 0.80562 mV) × 6 = 11.6 V by hand, below a cut-off of 12 V with its margin of 0.3 V.
    [Theory]
    [InlineData("12.0 V", true)]
    [InlineData("11.0 V", false)]
    public void Collecting_tells_the_battery_and_warns_near_its_cut_off(string cutOff, bool warns)
    {
        Outcome.Of("site", "new", _folder["ram.toml"]);
        File.WriteAllText(
            _folder["site.toml"],
            File.ReadAllText(_folder["ram.toml"]).Replace("[battery]\n", $"[battery]\ncut_off = \"{cutOff}\"\n", StringComparison.Ordinal));
        Assert.Contains(cutOff, File.ReadAllText(_folder["site.toml"]), StringComparison.Ordinal);
        Record(_folder["card"]);
        var collected = Outcome.Of("collect", _folder["card"], "--out", _folder["bursts"], "--site", _folder["site.toml"]);
        Assert.True(collected.ExitCode == 0, collected.Error);
        Assert.Contains("battery stood at 11.6 V", collected.Error, StringComparison.Ordinal);
        Assert.Equal(warns, collected.Error.Contains("nearly at its cut-off", StringComparison.Ordinal));
    }

    // The same 11.6 V: from the logger's health through recording and store to the keeper's question.
    [Fact]
    public void A_season_store_keeps_the_battery_of_each_burst()
    {
        Outcome.Of("site", "new", _folder["ram.toml"]);
        Record(_folder["card"]);
        Outcome.Of("collect", _folder["card"], "--out", _folder["bursts"], "--started", "2026-05-01T09:00:00Z");
        var logged = Outcome.Of("log", _folder["bursts"], "--site", _folder["ram.toml"], "--store", _folder["season.db"]);
        Assert.True(logged.ExitCode is 0 or 3, logged.Error);
        using ISeasonStore store = SeasonStores.Open(_folder["season.db"], create: false);
        SeasonBurst burst = store.Bursts(store.Rams().Single(), TimeSpanUtc.All).First();
        Assert.Equal(11.6, burst.Figures[SeasonFigure.Battery].Value, 0.05);
        Assert.Equal(1.16, burst.Figures[SeasonFigure.Battery].U!.Value, 0.01);
    }

    private static void Record(string card)
    {
        LoggerSettings settings = new()
        {
            WorksAlone = true,
            BurstLengthMilliseconds = 8000,
            BurstIntervalMilliseconds = 60_000,
            ChannelMask = (1 << Channels.Pressure) | (1 << Channels.Supply) | (1 << Channels.Battery),
        };
        VirtualLogger.VirtualLogger.RunAlone(
            new Steady(), new VirtualLoggerOptions { Settings = settings, CardFolder = card }, 90);
    }

    private sealed class Steady : IConverterSource
    {
        public bool TryRead(int channel, double timeS, out int counts)
        {
            counts = channel == Channels.Battery ? 2222 : 2000;
            return true;
        }
    }
}
