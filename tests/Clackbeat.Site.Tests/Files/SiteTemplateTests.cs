using System.Text.RegularExpressions;
using Clackbeat.Site.Check;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Tests.Files;

public partial class SiteTemplateTests
{
    [Theory]
    [InlineData(Units.Metric)]
    [InlineData(Units.Us)]
    public void The_template_is_valid_as_it_stands_and_needs_no_advice(Units units)
    {
        var check = SiteCheck.Of(SiteFile.ReadText(SiteTemplate.Text(units), "new.toml"));
        Assert.Empty(check.Problems);
        Assert.Empty(check.Advice);
        Assert.Equal(units, check.Site!.Units);
    }

    [Theory]
    [InlineData(Units.Metric)]
    [InlineData(Units.Us)]
    public void Every_key_behind_a_comment_mark_may_be_taken_into_use(Units units)
    {
        // The sections stand in place of the single pipe's keys: they are tried on their own below.
        string? text = Hidden().Replace(Sections().Replace(SiteTemplate.Text(units), ""), "${line}");
        SiteReading reading = SiteFile.ReadText(text, "new.toml");
        Assert.Empty(reading.Problems);
        Assert.All(SiteSchema.Keys.Where(k => k.Table != "drive_pipe.section"), k => Assert.Contains($"\n{k.Key} = ", text, StringComparison.Ordinal));
        Assert.Single(reading.Site!.BucketTests);
        Assert.Single(reading.Site.Fittings);
    }

    [Theory]
    [InlineData(Units.Metric)]
    [InlineData(Units.Us)]
    public void The_sections_of_the_template_take_the_place_of_the_single_pipe(Units units)
    {
        string? block = Hidden().Replace(Sections().Match(SiteTemplate.Text(units)).Value, "${line}");
        string least = string.Join('\n', SiteTexts.Least.Where((_, i) => i is not (5 or 6 or 7)));
        SiteReading reading = SiteFile.ReadText($"{least}\n{block}", "new.toml");
        Assert.Empty(reading.Problems);
        Assert.All(SiteSchema.KeysOf("drive_pipe.section"), k => Assert.Contains($"\n{k.Key} = ", block, StringComparison.Ordinal));
        Assert.Equal("SDR 13.6", Assert.Single(reading.Site!.DrivePipe.Sections).PressureClass);
    }

    [Fact]
    public void Both_templates_describe_the_same_ram()
    {
        RamSite metric = SiteFile.Parse(SiteTemplate.Text(Units.Metric), "new.toml");
        RamSite us = SiteFile.Parse(SiteTemplate.Text(Units.Us), "new.toml");
        Assert.Equal(1, us.Supply.HeadM / metric.Supply.HeadM, 0.05);
        Assert.Equal(1, us.DrivePipe.LengthM / metric.DrivePipe.LengthM, 0.05);
        Assert.Equal(1, us.DrivePipe.BoreM / metric.DrivePipe.BoreM, 0.05);
        Assert.Equal(1, us.DrivePipe.WallM!.Value / metric.DrivePipe.WallM!.Value, 0.05);
        Assert.Equal(1, us.Delivery.HeadM / metric.Delivery.HeadM, 0.05);
        Assert.Equal(1, us.Sensor.RangeHighPa / metric.Sensor.RangeHighPa, 0.05);
    }

    [Fact]
    public void Every_key_is_documented_with_what_it_weakens()
    {
        string? page = File.ReadAllText(Path.Combine(Repository.Root, "docs", "site-file.md"));
        Assert.All(SiteSchema.Keys, key => Assert.Contains(
            page.Split('\n'),
            line => line.StartsWith($"| `{key.Key}` | {key.Meaning} |", StringComparison.Ordinal)
                && line.Contains(key.LeftOut, StringComparison.Ordinal)));
    }

    [GeneratedRegex(@"^# \[\[drive_pipe\.section\]\]$.*?(?=^\[)", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Sections();

    [GeneratedRegex(@"^# (?<line>[a-z_]+ = .*|\[\[[a-z_.]+\]\])$", RegexOptions.Multiline)]
    private static partial Regex Hidden();
}
