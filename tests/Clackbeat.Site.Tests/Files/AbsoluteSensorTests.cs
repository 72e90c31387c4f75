using Clackbeat.Site.Check;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Tests.Files;

/// <summary>Altitude and an absolute sensor, from the file to the gauge pressures inside.</summary>
public class AbsoluteSensorTests
{
    // ISO 2533:1975, table 1: 101 325 Pa at sea level, 89 876 Pa at 1000 m, 74 692 Pa at 2500 m of geometric altitude.
    [Theory]
    [InlineData("", 101_325)]
    [InlineData("altitude = \"0 m\"", 101_325)]
    [InlineData("altitude = \"1000 m\"", 89_876)]
    [InlineData("altitude = \"2500 m\"", 74_692)]
    [InlineData("altitude = \"8202 ft\"", 74_692)]
    public void An_absolute_range_becomes_gauge_by_the_air_at_the_ram(string altitude, double airPa)
    {
        RamSite site = SiteFile.Parse(Text(altitude, "pressure = \"absolute\""), "ram.toml");
        Assert.True(site.Sensor.IsAbsolute);
        Assert.InRange(site.AtmospherePa / airPa, 0.9995, 1.0005);
        Assert.InRange(-site.Sensor.RangeLowPa / airPa, 0.9995, 1.0005);
        Assert.InRange((1e6 - site.Sensor.RangeHighPa) / airPa, 0.9995, 1.0005);
    }

    [Fact]
    public void A_gauge_sensor_is_left_as_it_is_at_any_altitude()
    {
        RamSite site = SiteFile.Parse(Text("altitude = \"2500 m\"", ""), "ram.toml");
        Assert.False(site.Sensor.IsAbsolute);
        Assert.Equal(0, site.Sensor.RangeLowPa);
    }

    [Fact]
    public void The_pipe_is_held_against_the_air_at_the_ram()
    {
        RamSite low = SiteFile.Parse(Text("", ""), "ram.toml");
        RamSite high = SiteFile.Parse(Text("altitude = \"2500 m\"", ""), "ram.toml");
        Assert.Equal(101_325, SiteLoad.Of(low).AtmospherePa);
        Assert.Equal(26_633, SiteLoad.Of(low).AtmospherePa - SiteLoad.Of(high).AtmospherePa, 20.0);
    }

    private static string Text(string site, string sensor) => $$"""
        [site]
        name = "a ram"
        {{site}}
        [supply]
        head = "2.5 m"
        [drive_pipe]
        material = "galvanised steel"
        length = "15 m"
        bore = "52.5 mm"
        wall = "3.9 mm"
        [delivery]
        head = "20 m"
        [sensor]
        range = "0 kPa to 1000 kPa"
        {{sensor}}
        """;
}
