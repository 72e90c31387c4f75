using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Clackbeat.Report.Twins;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Twin.Inside;
using Clackbeat.Words;

namespace Clackbeat.Report.Tests;

public partial class SlowMotionSpecs
{
    // Two frames, three places along the pipe.
    private static readonly InsideBeat Beat = new()
    {
        StepS = 0.25,
        LengthM = 10,
        SupplyHeadM = 2,
        VesselHeadM = 20,
        MainM3PerS = 1e-4,
        PipePeriodS = 0.02,
        Frames =
        [
            new InsideFrame([2, 3, 21.5], [1, 0.5, -0.25], 0, 0.5, 0, 4e-4, 0),
            new InsideFrame([2, 1, 0.5], [0.1, 0.2, 0.3], 1, 0, 5e-4, 0, -2.5e-5),
        ],
        MeasuredM = [21, 0.4],
    };

    [Theory]
    [InlineData("en")]
    [InlineData("es")]
    [InlineData("fr")]
    [InlineData("pt")]
    public void The_page_asks_for_nothing_from_outside_and_every_phrase_is_in_the_readers_language(string language)
    {
        string page = Page(language, Units.Metric);
        Assert.DoesNotContain("http", page.Replace("http://www.w3.org/2000/svg", "", StringComparison.Ordinal).Replace("http-equiv", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", page, StringComparison.Ordinal);
        Assert.Contains($"<html lang=\"{language}\">", page, StringComparison.Ordinal);
        // A phrase that is missing shows its key.
        Assert.DoesNotMatch(Key(), page);
        JsonElement words = Data(page).GetProperty("words");
        Assert.All(words.EnumerateObject(), word => Assert.False(string.IsNullOrWhiteSpace(word.Value.GetString()), word.Name));
        HashSet<string> asked = [.. Asked().Matches(page).Select(m => m.Groups[1].Value)];
        HashSet<string> rows = [.. Rows().Match(page).Groups[1].Value.Split(',').Select(r => "row_" + r.Trim().Trim('"'))];
        HashSet<string> known = [.. words.EnumerateObject().Select(w => w.Name)];
        Assert.Empty(asked.Except(known));
        Assert.Empty(rows.Except(known));
        Assert.Empty(known.Except(asked).Except(rows));
    }

    // CSP level 2, section 7.17.1: a script may run whose text has the hash that the policy names.
    [Fact]
    public void Only_the_script_that_the_page_brings_may_run()
    {
        string page = Page("en", Units.Metric);
        string script = page.Split("<script>")[1].Split("</script>")[0];
        string hash = Convert.ToBase64String(System.Security.Cryptography.SHA256.HashData(Encoding.UTF8.GetBytes(script)));
        Assert.Contains($"script-src 'sha256-{hash}'", page, StringComparison.Ordinal);
        Assert.Contains(SlowMotionPage.Policy, page, StringComparison.Ordinal);
    }

    [Fact]
    public void What_moves_is_what_the_twin_computed()
    {
        JsonElement data = Data(Page("en", Units.Metric));
        Assert.Equal([200, 300, 2150, 200, 100, 50], Row(data, "head"));
        Assert.Equal([1000, 500, -250, 100, 200, 300], Row(data, "velocity"));
        Assert.Equal([0, -25], Row(data, "vesselMl"));
        Assert.Equal([400, 0], Row(data, "delivery"));
        // A litre a second is 60 litres a minute.
        Assert.Equal(60, 1000 * data.GetProperty("flowFactor").GetDouble(), 9);
    }

    [Fact]
    public void A_reader_of_us_units_gets_feet_and_psi()
    {
        JsonElement data = Data(Page("en", Units.Us));
        // NIST SP 811: 1 ft = 0.3048 m; a foot of water at 12 °C is 0.4333 psi; a US gallon is 3.785 411 784 L.
        Assert.Equal(1 / 0.3048, data.GetProperty("headUnit").GetDouble(), 9);
        Assert.Equal(0.4333, 0.3048 * data.GetProperty("pressurePerHead").GetDouble(), 3);
        Assert.Equal(1 / 3.785411784, 1e6 / 60 / 1000 * data.GetProperty("flowFactor").GetDouble(), 6);
    }

    private static int[] Row(JsonElement data, string name) => [.. data.GetProperty(name).EnumerateArray().Select(v => v.GetInt32())];

    private static JsonElement Data(string page) => JsonDocument.Parse(Embedded().Match(page).Groups[1].Value).RootElement;

    private static string Page(string language, Units units)
    {
        RamSite site = SiteFile.Parse(SiteTemplate.Text(units), "a site");
        using var stream = new MemoryStream();
        using (Catalogue.Use(Catalogue.All.Single(c => c.Language.Code == language)))
        {
            SlowMotionPage.Write(stream, site, "monday.csv", Beat, fits: false);
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    [GeneratedRegex("<script type=\"application/json\" id=\"data\">(.*?)</script>", RegexOptions.Singleline)]
    private static partial Regex Embedded();

    [GeneratedRegex(@"\bslow\.[a-z]+[-a-z]*")]
    private static partial Regex Key();

    [GeneratedRegex(@"words\.(\w+)")]
    private static partial Regex Asked();

    [GeneratedRegex(@"for \(const name of \[([^\]]*)\]\) \{\s*draw2")]
    private static partial Regex Rows();
}
