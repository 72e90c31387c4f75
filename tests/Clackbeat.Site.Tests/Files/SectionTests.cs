using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Site.Check;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Words;

namespace Clackbeat.Site.Tests.Files;

public class SectionTests
{
    // Line numbers are counted from the first line.
    private static readonly string[] Mixed =
    [
        "[site]",                            // 1
        "name = \"Mill Lane ram\"",          // 2
        "[supply]",                          // 3
        "head = \"2.5 m\"",                  // 4
        "[[drive_pipe.section]]",            // 5
        "material = \"PE100\"",              // 6
        "length = \"9 m\"",                  // 7
        "bore = \"80 mm\"",                  // 8
        "wall = \"7.4 mm\"",                 // 9
        "[[drive_pipe.section]]",            // 10
        "material = \"galvanised steel\"",   // 11
        "length = \"6 m\"",                  // 12
        "bore = \"52.5 mm\"",                // 13
        "wave_speed = \"1300 m/s\"",         // 14
        "[delivery]",                        // 15
        "head = \"20 m\"",                   // 16
        "[sensor]",                          // 17
        "range = \"0 kPa to 1000 kPa\"",     // 18
    ];

    [Fact]
    public void Sections_are_read_in_their_order_and_add_up()
    {
        DrivePipe pipe = SiteFile.Parse(string.Join('\n', Mixed), "mixed.toml").DrivePipe;
        Assert.Equal([PipeMaterial.Pe100, PipeMaterial.GalvanisedSteel], pipe.Sections.Select(s => s.Material));
        Assert.Equal(15, pipe.LengthM, 1e-9);
        Assert.Equal(0.0525, pipe.BoreM, 1e-9);
        Assert.Equal(PipeMaterial.GalvanisedSteel, pipe.Material);
    }

    [Fact]
    public void What_holds_for_the_whole_pipe_stays_in_its_own_table()
    {
        string text = string.Join('\n', [.. Mixed, "[drive_pipe]", "length_uncertainty = \"5 cm\"", "minor_loss = 1.2"]);
        DrivePipe pipe = SiteFile.Parse(text, "mixed.toml").DrivePipe;
        Assert.Equal(1.2, pipe.MinorLossCoefficient);
        Assert.Equal(0.05, pipe.LengthUncertaintyM!.Value, 1e-9);
    }

    [Fact]
    public void A_section_may_stand_in_one_line()
    {
        string text = string.Join('\n', [.. SiteTexts.Least.Take(4), "[drive_pipe]",
            "section = [{ material = \"PE80\", length = \"8 m\", bore = \"40 mm\" }, { material = \"copper\", length = \"4 m\", bore = \"39 mm\" }]", .. SiteTexts.Least.Skip(8)]);
        Assert.Equal(2, SiteFile.Parse(text, "mixed.toml").DrivePipe.Sections.Count);
    }

    [Theory]
    [InlineData(7, "lenght = \"9 m\"", 7, "there is no key lenght in [[drive_pipe.section]]; did you mean length?")]
    [InlineData(8, "bore = \"80 bar\"", 8, "[[drive_pipe.section]] bore")]
    [InlineData(13, "", 10, "[[drive_pipe.section]] bore is missing")]
    [InlineData(3, "[drive_pipe]\nbore = \"50 mm\"\n[supply]", 4, "[drive_pipe] bore has no place beside [[drive_pipe.section]]")]
    [InlineData(9, "outside_diameter = \"70 mm\"", 8, "[[drive_pipe.section]] 1 bore")]
    [InlineData(14, "wave_speed = \"1500 m/s\"", 14, "speed of sound")]
    [InlineData(3, "[drive_pipe.sektion]\nbore = \"50 mm\"\n[supply]", 4, "did you mean [[drive_pipe.section]]?")]
    public void A_mistake_in_a_section_names_its_line(int line, string text, int told, string message)
    {
        string[]? lines = (string[])Mixed.Clone();
        lines[line - 1] = text;
        var check = SiteCheck.Of(SiteFile.ReadText(string.Join('\n', lines), "mixed.toml"));
        Assert.Contains(check.Problems, p => p.Line == told && Catalogue.English.Say(p.What).Contains(message, StringComparison.Ordinal));
    }

    // Σ 2L/a by hand: steel 12/1300 s; PE100 of 80 by 7.4 mm by its own computed wave speed a, 18/a.
    [Fact]
    public void The_pipe_period_is_the_sum_of_the_sections()
    {
        var hydraulics = SiteHydraulics.Of(SiteFile.Parse(string.Join('\n', Mixed), "mixed.toml"));
        var plastic = SiteHydraulics.Of(SiteFile.Parse(
            string.Join('\n', [.. SiteTexts.Least.Take(5), "material = \"PE100\"", "length = \"9 m\"", "bore = \"80 mm\"", "wall = \"7.4 mm\"", .. SiteTexts.Least.Skip(8)]),
            "single.toml"));
        Assert.Equal(12 / 1300.0 + 18 / plastic.WaveSpeedMPerS, hydraulics.PipePeriodS, 1e-9);
    }

    // By hand: as inert as L_e = A_ram Σ L/A = 6 + 9 (52.5/80)² = 9.876 m of 52.5 mm; a rigid column then takes
    // V_t L_e/(g H) atanh(V/V_t) = 2 · 9.876/(9.80665 · 2.5) · atanh 0.5 = 0.4426 s to 1 m/s.
    [Fact]
    public void The_expected_beat_goes_by_the_inertia_of_the_sections()
    {
        var mixed = ExpectedFigures.For(SiteFile.Parse(string.Join('\n', Mixed), "mixed.toml"));
        Assert.Equal(9.876, mixed.Hydraulics.Geometry.InertiaLengthM, 1e-3);
        Assert.Equal(0.4426, RamCycle.Rigid(mixed.Hydraulics.Geometry, 2, 1).OpenS, 1e-4);
    }

    [Fact]
    public void A_section_in_single_brackets_is_a_mistake()
    {
        string text = string.Join('\n', [.. Mixed.Take(4), "[drive_pipe.section]", .. Mixed.Skip(10)]);
        Assert.Contains(
            SiteFile.ReadText(text, "mixed.toml").Problems,
            p => p.Line == 5 && Catalogue.English.Say(p.What).StartsWith("write [[drive_pipe.section]] instead", StringComparison.Ordinal));
    }

    [Fact]
    public void Stand_pipe_snifter_valve_and_outlets_are_read()
    {
        RamSite site = SiteFile.Parse(
            SiteTexts.After(
                4, "stand_pipe_bore = \"143 mm\"", "feed_length = \"26.4 m\"", "feed_bore = \"61 mm\"", "other_rams = 1",
                "[air_vessel]", "snifter_bore = \"1.5 mm\"",
                "[waste_valve]", "kind = \"flap\"", "count = 2", "outlet = \"drowned\""),
            "site.toml");
        StandPipe stand = site.Supply.StandPipe!;
        Assert.Equal(0.143, stand.BoreM, 1e-9);
        Assert.Equal(26.4, stand.FeedLengthM!.Value, 1e-9);
        Assert.Equal(0.061, stand.FeedBoreM!.Value, 1e-9);
        Assert.Equal(1, site.Supply.OtherRams);
        Assert.Equal(0.0015, site.AirVessel.SnifterBoreM!.Value, 1e-9);
        Assert.Equal((WasteValveKind.Flap, 2, OutletKind.Drowned), (site.WasteValve.Kind, site.WasteValve.Count, site.WasteValve.Outlet));
    }

    [Fact]
    public void A_feed_without_a_stand_pipe_is_a_mistake()
    {
        SiteReading reading = SiteFile.ReadText(SiteTexts.After(4, "feed_length = \"26 m\""), "site.toml");
        Assert.Equal(5, Assert.Single(reading.Problems).Line);
    }

    [Fact]
    public void A_key_of_a_repeated_table_written_as_a_single_one_is_a_mistake_and_not_dropped()
    {
        SiteReading reading = SiteFile.ReadText(SiteTexts.With(1, "fitting.name = \"union\"\n[site]"), "site.toml");
        Assert.Equal(1, Assert.Single(reading.Problems).Line);
    }

    [SkippableFact]
    public void The_site_files_with_sections_stand_pipe_and_snifter_are_read_and_expected()
    {
        string? folder = Path.Combine(Environment.GetEnvironmentVariable("CLACKBEAT_SHARED") ?? Path.Combine(Repository.Root, "..", "shared"), "traces", "wild");
        Skip.IfNot(Directory.Exists(folder), "the traces of rams on real pipes are not at hand");
        foreach (string file in Directory.EnumerateFiles(folder, "*.site.toml"))
        {
            Assert.Empty(SiteCheck.Of(SiteFile.Read(file)).Problems);
        }
    }
}
