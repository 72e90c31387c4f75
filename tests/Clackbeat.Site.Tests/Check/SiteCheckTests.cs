using Clackbeat.Site.Check;
using Clackbeat.Site.Files;
using Clackbeat.Site.Tests.Files;

namespace Clackbeat.Site.Tests.Check;

public class SiteCheckTests
{
    [Fact]
    public void A_sensor_that_every_beat_exceeds_is_a_contradiction()
    {
        var problem = Assert.Single(CheckOf(SiteTexts.With(12, "range = \"0 to 200 kPa\"")).Problems);
        Assert.Equal(12, problem.Line);
        Assert.Contains("range ends at 2.00 bar", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sensor_that_a_hard_beat_may_exceed_is_advice()
    {
        var check = CheckOf(string.Join('\n', SiteTexts.Least));
        Assert.Empty(check.Problems);
        Assert.Contains(check.Advice, a => a.Contains("hard beat may reach", StringComparison.Ordinal));
    }

    [Fact]
    public void A_wave_faster_than_sound_in_open_water_is_a_contradiction()
    {
        // Sound in water at 12 °C runs at 1455 m/s (between 1448 at 10 °C and 1483 at 20 °C, LSBU water data).
        var check = CheckOf(SiteTexts.After(8, "wave_speed = \"1500 m/s\""));
        Assert.Contains(check.Problems, p => p.Line == 9 && p.Message.Contains("speed of sound", StringComparison.Ordinal));
    }

    [Fact]
    public void A_wave_speed_far_below_the_computed_one_is_advice()
    {
        var check = CheckOf(SiteTexts.After(8, "wall = \"3.9 mm\"", "wave_speed = \"700 m/s\""));
        Assert.Contains(check.Advice, a => a.StartsWith("wave_speed is 700 m/s", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(7, "length = \"4 m\"", "bores long")]
    [InlineData(4, "head = \"0.6 m\"", "times the supply head")]
    [InlineData(8, "bore = \"52.5 mm\"\npressure_rating = \"6 bar\"", "above the rating of the drive pipe")]
    [InlineData(12, "range = \"0 to 10 bar\"\ntap_line_length = \"2 m\"", "tap line")]
    [InlineData(12, "range = \"0 to 10 bar\"\n[logger]\nsampling_rate = \"50 Hz\"", "wants at least 1000 Hz")]
    [InlineData(12, "range = \"0 to 10 bar\"\n[air_vessel]\nvolume = \"0.2 L\"", "air vessel")]
    public void Uncommon_proportions_are_advice_and_no_mistake(int line, string text, string expected)
    {
        var check = CheckOf(SiteTexts.With(line, text));
        Assert.Empty(check.Problems);
        Assert.Contains(check.Advice, a => a.Contains(expected, StringComparison.Ordinal));
    }

    [Fact]
    public void A_key_left_out_is_said_with_what_it_weakens()
    {
        var check = CheckOf(string.Join('\n', SiteTexts.Least));
        Assert.Contains(check.LeftOut, l => l.Keys.Contains("supply.head_uncertainty") && l.Weakens.Contains("efficiencies", StringComparison.Ordinal));
        Assert.Contains(check.LeftOut, l => l.Keys.Contains("drive_pipe.pressure_rating"));
        var given = CheckOf(SiteTexts.After(4, "head_uncertainty = \"2 cm\""));
        Assert.DoesNotContain(given.LeftOut, l => l.Keys.Contains("supply.head_uncertainty"));
    }

    [Fact]
    public void Expected_pressures_are_those_of_the_water_columns()
    {
        // 998.2 to 999.7 kg/m³ between 20 and 10 °C (LSBU), g = 9.80665 m/s²: 9.80 kPa a metre within 0.1 %.
        var expected = CheckOf(SiteTexts.With(12, "range = \"0 to 10 bar\"\nheight = \"0.5 m\"")).Expected!;
        Assert.InRange(expected.StaticPa, 2.0 * 9.79e3, 2.0 * 9.81e3);
        Assert.InRange(expected.DeliveryPa, 19.5 * 9.79e3, 19.5 * 9.81e3);
    }

    [Fact]
    public void A_short_pipe_asks_for_a_faster_logger()
    {
        // The published vertical ram: 1.56 m of 1 in Schedule 40 PVC, wave speed "over 500 m/s" (EPA P3 report, AguaClara,
        // Cornell University), so 2L/a is under 6.24 ms; ten points a period want over 1.6 kHz.
        var expected = CheckOf("""
            site.name = "short"
            supply.head = "1.56 m"
            drive_pipe = { material = "PVC-U", length = "1.56 m", bore = "1.049 in", wall = "0.133 in" }
            delivery.head = "6 m"
            sensor.range = "-10 m to 100 m"
            """).Expected!;
        Assert.InRange(expected.Ram.PipePeriodS, 5e-3, 6.24e-3);
        Assert.InRange(expected.LeastSamplingRateHz, 1600, 2000);
    }

    private static SiteCheck CheckOf(string text) => SiteCheck.Of(SiteFile.ReadText(text, "ram.toml"));
}
