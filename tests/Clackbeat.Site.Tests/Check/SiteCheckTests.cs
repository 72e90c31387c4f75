using Clackbeat.Site.Check;
using Clackbeat.Site.Files;
using Clackbeat.Site.Tests.Files;
using Clackbeat.Words;

namespace Clackbeat.Site.Tests.Check;

public class SiteCheckTests
{
    [Fact]
    public void A_sensor_that_every_beat_exceeds_is_a_contradiction()
    {
        SiteProblem problem = Assert.Single(CheckOf(SiteTexts.With(12, "range = \"0 to 200 kPa\"")).Problems);
        Assert.Equal(12, problem.Line);
        Assert.Contains("range ends at 2.00 bar", Catalogue.English.Say(problem.What), StringComparison.Ordinal);
    }

    [Fact]
    public void A_sensor_that_a_hard_beat_may_exceed_is_advice()
    {
        SiteCheck check = CheckOf(string.Join('\n', SiteTexts.Least));
        Assert.Empty(check.Problems);
        Assert.Contains(check.Advice, a => Catalogue.English.Say(a).Contains("hard beat may reach", StringComparison.Ordinal));
    }

    // The ram that a reader of the old pages would have fitted with 1 bar: its peaks may reach many times that.
    [Fact]
    public void The_sensor_to_buy_reaches_the_ceiling_of_the_peaks()
    {
        ExpectedFigures expected = CheckOf(string.Join('\n', SiteTexts.Least)).Expected!;
        Assert.True(expected.Sensing.RangeToBuyPa >= expected.Ram.PeakCeilingPa.High);
        Assert.True(expected.Sensing.RangeToBuyPa < 2 * expected.Ram.PeakCeilingPa.High, "the next usual range, not a far one");
    }

    [Fact]
    public void A_wave_faster_than_sound_in_open_water_is_a_contradiction()
    {
        // Sound in water at 12 °C runs at 1455 m/s (between 1448 at 10 °C and 1483 at 20 °C, LSBU water data).
        SiteCheck check = CheckOf(SiteTexts.After(8, "wave_speed = \"1500 m/s\""));
        Assert.Contains(check.Problems, p => p.Line == 9 && Catalogue.English.Say(p.What).Contains("speed of sound", StringComparison.Ordinal));
    }

    [Fact]
    public void A_wave_speed_far_below_the_computed_one_is_advice()
    {
        SiteCheck check = CheckOf(SiteTexts.After(8, "wall = \"3.9 mm\"", "wave_speed = \"700 m/s\""));
        Assert.Contains(check.Advice, a => Catalogue.English.Say(a).StartsWith("wave_speed is 700 m/s", StringComparison.Ordinal));
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
        SiteCheck check = CheckOf(SiteTexts.With(line, text));
        Assert.Empty(check.Problems);
        Assert.Contains(check.Advice, a => Catalogue.English.Say(a).Contains(expected, StringComparison.Ordinal));
    }

    // A vertical drive pipe under a header tank: 1.56 m of pipe under 1.70 m of head beats well (Cornell AguaClara, 2021, whose
    // drive pipe is as long as its head is high; the tank's own depth comes on top).
    [Fact]
    public void A_drive_pipe_shorter_than_the_head_is_advice_and_no_mistake()
    {
        string? lines = SiteTexts.With(7, "length = \"1.56 m\"").Replace(SiteTexts.Least[3], "head = \"1.70 m\"", StringComparison.Ordinal);
        SiteCheck check = CheckOf(lines);
        Assert.Empty(check.Problems);
        Assert.Contains(check.Advice, a => Catalogue.English.Say(a).Contains("shorter than the supply head", StringComparison.Ordinal) && Catalogue.English.Say(a).Contains("header tank", StringComparison.Ordinal));
    }

    [Fact]
    public void A_key_left_out_is_said_with_what_it_weakens()
    {
        SiteCheck check = CheckOf(string.Join('\n', SiteTexts.Least));
        Assert.Contains(check.LeftOut, l => l.Keys.Contains("supply.head_uncertainty") && l.Weakens.Contains("good to 1 %", StringComparison.Ordinal));
        Assert.Contains(check.LeftOut, l => l.Keys.Contains("drive_pipe.pressure_rating"));
        SiteCheck given = CheckOf(SiteTexts.After(4, "head_uncertainty = \"2 cm\""));
        Assert.DoesNotContain(given.LeftOut, l => l.Keys.Contains("supply.head_uncertainty"));
    }

    [Fact]
    public void Expected_pressures_are_those_of_the_water_columns()
    {
        // 998.2 to 999.7 kg/m³ between 20 and 10 °C (LSBU), g = 9.80665 m/s²: 9.80 kPa a metre within 0.1 %.
        ExpectedFigures expected = CheckOf(SiteTexts.With(12, "range = \"0 to 10 bar\"\nheight = \"0.5 m\"")).Expected!;
        Assert.InRange(expected.StaticPa, 2.0 * 9.79e3, 2.0 * 9.81e3);
        Assert.InRange(expected.DeliveryPa, 19.5 * 9.79e3, 19.5 * 9.81e3);
    }

    [Fact]
    public void A_short_pipe_asks_for_a_faster_logger()
    {
        // The published vertical ram: 1.56 m of 1 in Schedule 40 PVC, wave speed "over 500 m/s" (EPA P3 report, AguaClara,
        // Cornell University), so 2L/a is under 6.24 ms; ten points a period want over 1.6 kHz.
        ExpectedFigures expected = CheckOf("""
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
