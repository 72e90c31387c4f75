using Clackbeat.Site.Check;
using Clackbeat.Site.Files;
using Clackbeat.Site.Physics;
using Clackbeat.Site.Tests.Files;
using Clackbeat.Words;

namespace Clackbeat.Site.Tests;

/// <summary>The battery's divider and its cut-off, by hand calculation. A wrong divider puts 6 V on a pin that bears 3.3 V.</summary>
public class BatteryTests
{
    // 14.4 V over 100 and 20 kΩ: 14.4/6 = 2.40 V, below the 2.45 V that the converter reads and the 3.3 V that a pin bears.
    [Fact]
    public void AChargingBatteryStaysWithinAPinsLimit()
    {
        double pinV = 14.4 * SiteSensing.BatteryDividerOf(SiteSensing.Board).Share;
        Assert.Equal(2.40, pinV, 1e-9);
        Assert.True(pinV < 2.45, "the converter's window");
    }

    // 12.0 V is 2.0 V at the pin: (2000 − 142)/0.8056 = 2306 counts (from 142 mV at 0.8056 mV a count).
    [Fact]
    public void TheCutOffIsNamedInCountsAsTheFirmwareWantsIt()
    {
        var check = SiteCheck.Of(SiteFile.ReadText(string.Join('\n', SiteTexts.Least) + "\n[battery]\ncut_off = \"12 V\"\n", "ram.toml"));
        Assert.Equal(2306, check.Expected!.Sensing.BatteryCutOffCounts);
    }

    // A loop's filter of 4.8 kΩ and 47 nF: 705 Hz. With 22 nF it was 1507 Hz, above the sampling rate.
    [Fact]
    public void ALoopIsFilteredBelowTheSamplingRate()
    {
        var check = SiteCheck.Of(SiteFile.ReadText(
            string.Join('\n', SiteTexts.Least) + "\noutput = \"4 mA to 20 mA\"\n[logger]\nsampling_rate = \"1000 Hz\"\n", "ram.toml"));
        Assert.Equal(705, check.Expected!.Sensing.Filter.CornerHz, 0.5);
        Assert.DoesNotContain(check.Advice, a => Catalogue.English.Say(a).Contains("fold back", StringComparison.Ordinal));
    }
}
