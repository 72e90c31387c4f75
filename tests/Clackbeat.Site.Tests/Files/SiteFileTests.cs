using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Site.Tests.Files;

public class SiteFileTests
{
    [Fact]
    public void The_least_file_becomes_a_site_in_SI()
    {
        RamSite site = SiteFile.Parse(string.Join('\n', SiteTexts.Least), "ram.toml");
        Assert.Equal("Mill Lane ram", site.Name);
        Assert.Equal(2.5, site.Supply.HeadM);
        Assert.Equal(PipeMaterial.GalvanisedSteel, site.DrivePipe.Material);
        Assert.Equal(0.0525, site.DrivePipe.BoreM, 1e-12);
        Assert.Equal((0, 1e6), (site.Sensor.RangeLowPa, site.Sensor.RangeHighPa));
        Assert.Null(site.DrivePipe.WallM);
        Assert.Null(site.Supply.HeadUncertaintyM);
    }

    [Theory]
    [InlineData(2, "name = \"\"", 2, "nothing is written")]
    [InlineData(2, "name = 12", 2, "text in quotes")]
    [InlineData(4, "head = \"2.5 kPa\"", 4, "unit of a gauge pressure")]
    [InlineData(4, "head = \"2.5\"", 4, "no unit")]
    [InlineData(4, "head = 2.5", 4, "text with its unit")]
    [InlineData(4, "head = 2.5 m", 4, "write head = \"2.5 m\"")]
    [InlineData(4, "head = \"-2.5 m\"", 4, "less than can be")]
    [InlineData(4, "head = \"2500 m\"", 4, "more than can be")]
    [InlineData(4, "haed = \"2.5 m\"", 4, "did you mean head")]
    [InlineData(4, "head = ", 4, "can't be read")]
    [InlineData(3, "[suply]", 3, "did you mean [supply]")]
    [InlineData(3, "[supply", 3, "can't be read")]
    [InlineData(3, "[[supply]]", 3, "write [supply]")]
    [InlineData(6, "material = \"galvanished steel\"", 6, "Did you mean \"galvanised steel\"")]
    [InlineData(6, "material = \"HDPE\"", 6, "PE100, PE80 or PE4710")]
    [InlineData(8, "bore = \"52.5 mm\"\nbore = \"53 mm\"", 9, "bore")]
    [InlineData(8, "bore = \"52.5 mm\"\noutside_diameter = \"50 mm\"", 8, "not smaller than outside_diameter")]
    [InlineData(8, "bore = \"52.5 mm\"\nwall = \"3.9 mm\"\noutside_diameter = \"80 mm\"", 10, "doesn't agree")]
    [InlineData(8, "bore = \"52.5 mm\"\nwave_speed = \"12500 m/s\"", 9, "more than can be")]
    [InlineData(8, "bore = \"52.5 mm\"\nthreaded = \"yes\"", 9, "threaded = true")]
    [InlineData(8, "bore = \"52.5 mm\"\nrestraint = \"loose\"", 9, "one of \"anchored\"")]
    [InlineData(8, "bore = \"52.5 mm\"\nminor_loss = \"2 m\"", 9, "number without a unit")]
    [InlineData(8, "bore = \"52.5 mm\"\nvolume = \"3 L\"", 9, "belongs under [air_vessel]")]
    [InlineData(12, "range = \"0 to 10 bar\"\n[supply]\nstand_pipe_bore = \"1 m\"", 13, "supply already stands in line 3")]
    [InlineData(8, "bore = \"52.5 mm\"\nbore = \"53 mm\"", 9, "bore already stands in line 8")]
    [InlineData(10, "head = \"2 m\"", 10, "not above [supply] head")]
    [InlineData(12, "range = \"1000 kPa\"", 12, "both ends")]
    [InlineData(12, "range = \"1000 kPa to 0 kPa\"", 12, "lower end first")]
    [InlineData(12, "range = \"0 to 10 bar\"\n[bucket_test]\nvolume = \"1 L\"", 13, "write [[bucket_test]]")]
    [InlineData(12, "range = \"0 to 10 bar\"\n[[bucket_test]]\noutlet = \"spout\"", 14, "one of \"delivery\", \"waste\"")]
    [InlineData(12, "range = \"0 to 10 bar\"\n[[bucket_test]]\noutlet = \"waste\"", 13, "time is missing")]
    [InlineData(12, "range = \"0 to 10 bar\"\n[[bucket_test]]\ndate = \"3.5.2026\"", 14, "year first")]
    public void A_mistake_is_named_with_its_line_and_the_remedy(int line, string text, int saidLine, string said)
    {
        SiteReading reading = SiteFile.ReadText(SiteTexts.With(line, text), "ram.toml");
        Assert.Contains(reading.Problems, p => p.Line == saidLine && Catalogue.English.Say(p.What).Contains(said, StringComparison.Ordinal));
        Assert.Throws<InputException>(reading.SiteOrThrow);
    }

    [Fact]
    public void A_missing_key_is_asked_for_where_its_table_stands()
    {
        SiteReading reading = SiteFile.ReadText(SiteTexts.With(7, "# length is to be measured"), "ram.toml");
        SiteProblem problem = Assert.Single(reading.Problems);
        Assert.Equal(5, problem.Line);
        Assert.Contains("[drive_pipe] length is missing", Catalogue.English.Say(problem.What), StringComparison.Ordinal);
    }

    [Fact]
    public void All_mistakes_are_told_at_once_in_the_order_of_the_file()
    {
        string? text = SiteTexts.With(4, "head = \"2,5 m\"").Replace("52.5 mm", "52.5 bar", StringComparison.Ordinal);
        InputException refusal = Assert.Throws<InputException>(() => SiteFile.Parse(text, "ram.toml"));
        Assert.StartsWith("ram.toml: 2 mistakes", refusal.Message, StringComparison.Ordinal);
        Assert.True(refusal.Message.IndexOf("line 4", StringComparison.Ordinal) < refusal.Message.IndexOf("line 8", StringComparison.Ordinal));
    }

    [Fact]
    public void A_missing_quote_is_one_mistake_and_named_in_its_line()
    {
        foreach (string broken in new[] { "head = \"2.5 m", "head = 2.5 m\"" })
        {
            SiteProblem only = Assert.Single(SiteFile.ReadText(SiteTexts.With(4, broken), "ram.toml").Problems);
            Assert.Equal(4, only.Line);
            Assert.Contains("quote is missing", Catalogue.English.Say(only.What), StringComparison.Ordinal);
        }

        // In the sample with all its keys the parser finds fifteen.
        string[] lines = SiteTemplate.Text(Clackbeat.Site.Quantities.Units.Metric).Split('\n');
        int at = Array.FindIndex(lines, l => l.StartsWith("head = \"", StringComparison.Ordinal));
        lines[at] = lines[at].Remove(lines[at].IndexOf('"', 8), 1);
        Assert.Equal(at + 1, Assert.Single(SiteFile.ReadText(string.Join('\n', lines), "ram.toml").Problems).Line);
    }

    [Theory]
    [InlineData("t_s,p_kPa\n0.000,21.3\n0.001,21.4\n0.002,21.2\n", "table of figures")]
    [InlineData("t_s;p_kPa\n0,000;21,3\n0,001;21,4\n", "table of figures")]
    [InlineData("Dear Anna,\nthe ram runs again.\nBest wishes\n", "no site file")]
    public void A_file_of_another_kind_is_one_mistake(string text, string said) =>
        Assert.Contains(said, Catalogue.English.Say(Assert.Single(SiteFile.ReadText(text, "ram.toml").Problems).What), StringComparison.Ordinal);

    [Theory]
    [InlineData("head = “2.5 m”")]
    [InlineData("head = „2.5 m“")]
    [InlineData("head = ‘2.5 m’")]
    public void Quotes_of_a_word_processor_are_quotes(string line) =>
        Assert.Equal(2.5, SiteFile.Parse(SiteTexts.With(4, line), "ram.toml").Supply.HeadM, 9);

    [Fact]
    public void Curly_quotes_within_a_name_stay()
    {
        Assert.Equal("the “old” ram", SiteFile.Parse(SiteTexts.With(2, "name = \"the “old” ram\""), "ram.toml").Name);
        Assert.Equal("Anna’s ram", SiteFile.Parse(SiteTexts.With(2, "name = “Anna’s ram”"), "ram.toml").Name);
    }

    [Fact]
    public void Dotted_and_inline_forms_of_TOML_are_the_same_file()
    {
        const string text = """
            site.name = "Mill Lane ram"
            supply = { head = "2.5 m" }
            drive_pipe = { material = "PVC-U", length = "12 m", bore = "40.9 mm" }
            delivery.head = "18 m"
            sensor.range = "0 to 10 bar"
            fitting = [{ name = "gate valve", pressure_rating = "16 bar" }, { name = "union" }]
            """;
        RamSite site = SiteFile.Parse(text, "ram.toml");
        Assert.Equal(18, site.Delivery.HeadM);
        Assert.Equal(
            [("gate valve", 1.6e6), ("union", null)],
            site.Fittings.Select(f => (f.Name, f.PressureRatingPa)));
    }

    [Fact]
    public void Bucket_tests_keep_their_order_and_give_a_flow()
    {
        RamSite site = SiteFile.Parse(
            SiteTexts.After(
                12, "[[bucket_test]]", "outlet = \"delivery\"", "volume = \"10 L\"", "time = \"100 s\"", "date = 2026-05-03",
                "[[bucket_test]]", "outlet = \"waste\"", "volume = \"60 L\"", "time = \"1 min\""),
            "ram.toml");
        Assert.Equal([BucketOutlet.Delivery, BucketOutlet.Waste], site.BucketTests.Select(b => b.Outlet));
        Assert.Equal([1e-4, 1e-3], site.BucketTests.Select(b => Math.Round(b.FlowM3PerS, 12)));
        Assert.Equal(new DateOnly(2026, 5, 3), site.BucketTests[0].Date);
    }

    [Fact]
    public void The_wall_follows_from_the_outside_diameter()
    {
        RamSite site = SiteFile.Parse(SiteTexts.After(8, "outside_diameter = \"60.3 mm\""), "ram.toml");
        Assert.Equal(3.9e-3, site.DrivePipe.WallM!.Value, 1e-9);
    }

    [Fact]
    public void A_byte_order_mark_is_no_mistake() =>
        Assert.Equal("Mill Lane ram", SiteFile.Parse("\uFEFF" + string.Join("\r\n", SiteTexts.Least), "ram.toml").Name);

    [Fact]
    public void A_file_that_is_no_UTF8_text_is_refused_with_its_line()
    {
        string? path = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(path, [.. "[site]\nname = \"12 "u8, 0xB0, .. "C\""u8]);
            Assert.Contains("line 2", Assert.Throws<InputException>(() => SiteFile.Load(path)).Message, StringComparison.Ordinal);
            File.WriteAllBytes(path, [1, 2, 0, 4]);
            Assert.Contains("no text file", Assert.Throws<InputException>(() => SiteFile.Load(path)).Message, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void Every_material_may_be_written_as_it_is_shown()
    {
        foreach (PipeMaterial material in Enum.GetValues<PipeMaterial>())
        {
            Assert.True(MaterialNames.TryParse(MaterialNames.Of(material), out PipeMaterial read));
            Assert.Equal(material, read);
        }
    }
}
