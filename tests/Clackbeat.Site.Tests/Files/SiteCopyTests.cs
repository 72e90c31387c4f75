using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Tests.Files;

public class SiteCopyTests
{
    private const string Keepers = """
        # Mrs Green, 3 Mill Lane
        [site]
        name = "Mill Lane spring"
        altitude = "210 m" # by Green's map
        note = "Ask Mrs Green for the key."
        [supply]
        head = "2.4 m"
        [drive_pipe]
        minor_loss = 1.2 # Green's guess
        [[drive_pipe.section]]
        material = "steel"
        length = "4 m"
        bore = "50 mm"
        wall = "4 mm"
        [[drive_pipe.section]]
        material = "PE100"
        length = "8 m"
        bore = "55 mm"
        wall = "5 mm"
        [delivery]
        head = "17 m"
        [[fitting]]
        name = "valve from \"Green & Sons\""
        pressure_rating = "16 bar"
        [[bucket_test]]
        outlet = "delivery"
        volume = "10 L"
        time = "150 s"
        date = 2026-04-02 # Green was there
        [sensor]
        range = "0 to 16 bar"
        """;

    [Fact]
    public void Nothing_that_a_keeper_wrote_in_words_goes_along()
    {
        string? copy = SiteCopy.WithoutPlace(Keepers, "calibration.toml");
        Assert.DoesNotContain("Green", copy, StringComparison.Ordinal);
        Assert.DoesNotContain("Mill", copy, StringComparison.Ordinal);
        Assert.DoesNotContain("#", copy, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_measure_goes_along()
    {
        RamSite mine = SiteFile.Parse(Keepers, "mine");
        RamSite copy = SiteFile.Parse(SiteCopy.WithoutPlace(Keepers, "calibration.toml"), "copy");
        Assert.Equal(mine.Supply, copy.Supply);
        Assert.Equal(mine.Delivery, copy.Delivery);
        Assert.Equal(mine.AltitudeM, copy.AltitudeM);
        Assert.Equal(mine.Sensor, copy.Sensor);
        Assert.Equal(mine.BucketTests, copy.BucketTests);
        Assert.Equal(mine.DrivePipe.Sections, copy.DrivePipe.Sections);
        Assert.Equal(mine.DrivePipe.MinorLossCoefficient, copy.DrivePipe.MinorLossCoefficient);
        Assert.Equal(mine.Fittings.Select(f => f with { Name = "" }), copy.Fittings.Select(f => f with { Name = "" }));
    }

    [Fact]
    public void A_calibration_is_named_as_it_lies_in_the_archive() => Assert.Contains(
        "calibration = \"calibration.toml\"",
        SiteCopy.WithoutPlace(Keepers + "\ncalibration = \"green.toml\"", "calibration.toml"),
        StringComparison.Ordinal);
}
