using System.Text;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Clackbeat.Report.Export;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Seasons;
using Clackbeat.Site.Quantities;
using PdfSharp.Pdf;
using PdfSharp.Pdf.IO;

namespace Clackbeat.Report.Tests;

/// <summary>The season's page for a meeting.</summary>
public class SeasonReportSpecs
{
    private static readonly DateTimeOffset Made = new(2026, 1, 10, 18, 0, 0, TimeSpan.FromHours(1));

    [Fact]
    public void A_year_with_upkeep_a_stop_a_silence_and_a_change_fits_on_one_sheet()
    {
        using PdfDocument pdf = PdfReader.Open(new MemoryStream(Write(ReportFormat.Pdf, Year())), PdfDocumentOpenMode.Import);
        Assert.Equal(1, pdf.PageCount);
        Assert.Equal("Mill ram: season report", pdf.Info.Title);
    }

    [Fact]
    public void Pictures_come_first_and_then_what_was_done_and_what_to_decide()
    {
        IDocument page = Html(Year());
        Assert.Equal(["pictures", "upkeep", "decide"], page.QuerySelectorAll("main > section:not(.verdict)").Select(s => s.Id!));
        Assert.Equal(["plot-water", "plot-efficiency", "plot-calendar"], page.QuerySelectorAll("#pictures figure").Select(f => f.Id!));
        Assert.All(page.QuerySelectorAll("#pictures svg"), svg => Assert.NotEmpty(svg.QuerySelector("desc")!.TextContent));
    }

    /// <summary>By hand: twelve months of 250 ± 15 m³ are 3000 ± 180 m³, since a meter's errors don't average out; a gallon is 3.785411784 L.</summary>
    [Fact]
    public void Water_is_told_with_its_uncertainty_in_both_units()
    {
        IDocument page = Html(Year());
        IElement headline = page.QuerySelector("#verdict-head")!;
        Assert.Equal("3 000 ± 180 m³", Plain(headline.QuerySelector(".m")!.TextContent));
        Assert.Equal("790 000 ± 50 000 gal", Plain(headline.QuerySelector(".us")!.TextContent));
        Assert.True(Html(Year() with { Units = Units.Us }).QuerySelector("#units-us")!.HasAttribute("checked"));
    }

    [Fact]
    public void What_to_decide_says_why_and_a_change_with_a_note_is_not_asked_about()
    {
        string decide = Plain(Html(Year()).QuerySelector("#decide")!.TextContent);
        Assert.Contains("falls by 1.2 points a month (0.8 to 1.6) since 12 June 2025", decide, StringComparison.Ordinal);
        Assert.Contains("stood from 3 December 2025 to 9 December 2025, 7.0 days", decide, StringComparison.Ordinal);
        Assert.Contains("About 14 May 2025 something changed (irregularity from 2.3 % to 22 % and beats a minute from 45.2 to 41.5)", decide, StringComparison.Ordinal);
        Assert.Contains("Nothing was recorded from 8 August 2025 to 14 August 2025", decide, StringComparison.Ordinal);
        Assert.DoesNotContain("12 June 2025 something changed", decide, StringComparison.Ordinal);
    }

    [Fact]
    public void A_peak_over_what_the_pipe_may_bear_comes_first()
    {
        IDocument page = Html(Year() with { PeakShare = 1.3 });
        Assert.Contains("stop", page.QuerySelector("#verdict")!.ClassList);
        Assert.StartsWith("In the last month the peaks reached 130 %", Plain(page.QuerySelector("#decide li")!.TextContent), StringComparison.Ordinal);
    }

    [Fact]
    public void A_store_that_knows_little_makes_a_page_that_says_so()
    {
        SeasonStory bare = Year() with
        {
            Months = [new SeasonMonth(new DateOnly(2025, 1, 1), null, 0, 0, 0, 744)],
            Efficiency = [],
            Slope = null,
            Upkeep = [],
            Changes = [],
            Hours = [],
            Stoppages = [],
            Silences = [],
            PeakShare = null,
            Fatigue = null,
        };
        IDocument page = Html(bare);
        Assert.Contains("How much water it delivered is not known", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains("Nothing stands out", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.NotEmpty(Write(ReportFormat.Pdf, bare));
    }

    [Fact]
    public void Words_of_a_keeper_are_no_markup()
    {
        IDocument page = Html(Year() with
        {
            SiteName = "<script>alert(1)</script>",
            Upkeep = [new SeasonUpkeep(new DateOnly(2025, 6, 12), "<img src=x onerror=alert(1)>", null)],
        });
        Assert.Empty(page.QuerySelectorAll("script, img"));
    }

    private static SeasonStory Year()
    {
        var start = new DateOnly(2025, 1, 1);
        DateOnly[] days = [.. Enumerable.Range(0, 365).Select(start.AddDays).Where(d => d < new DateOnly(2025, 8, 8) || d > new DateOnly(2025, 8, 14))];
        bool Stands(DateOnly day) => day >= new DateOnly(2025, 12, 3) && day <= new DateOnly(2025, 12, 9);
        return new SeasonStory
        {
            SiteName = "Mill ram",
            From = start,
            To = start.AddDays(364),
            Months = [.. Enumerable.Range(0, 12).Select(m => new SeasonMonth(start.AddMonths(m), 250, 15, 700, m == 11 ? 168 : 0, m == 7 ? 168 : 0))],
            Efficiency = [.. days.Where(d => !Stands(d)).Select(d => new PlottedDay(d, 50 + (0.01 * d.DayOfYear), 49, 55))],
            LevelM = 2.9,
            Slope = new SeasonSlope(new DateOnly(2025, 6, 12), -1.2, -1.6, -0.8, 48.6),
            Upkeep =
            [
                new SeasonUpkeep(new DateOnly(2025, 5, 20), "freed a twig from the waste valve", (0.1, -0.9, 1.2)),
                new SeasonUpkeep(new DateOnly(2025, 6, 12), "replaced clack rubber", (8.0, 7.1, 9.1)),
            ],
            Changes =
            [
                new SeasonChange(new DateOnly(2025, 5, 14), default, default, "irregularity", "2.3 %", "22 %", false),
                new SeasonChange(new DateOnly(2025, 5, 14), default, default, "beats a minute", "45.2", "41.5", false),
                new SeasonChange(new DateOnly(2025, 6, 12), default, default, "efficiency", "48 %", "57 %", true),
            ],
            Hours = [.. days.SelectMany(d => Enumerable.Range(0, 24).Select(h => new PlottedHour(d, h, Stands(d) ? 0 : 1, Stands(d) ? null : 40 + (d.DayOfYear % 10))))],
            Stoppages = [new SeasonStretch(new DateOnly(2025, 12, 3), new DateOnly(2025, 12, 9), 168)],
            Silences = [new SeasonStretch(new DateOnly(2025, 8, 8), new DateOnly(2025, 8, 14), 168)],
            PeakShare = 0.4,
            Fatigue = (0.01, 0.002, 0.05),
        };
    }

    private static IDocument Html(SeasonStory story) => new HtmlParser().ParseDocument(Encoding.UTF8.GetString(Write(ReportFormat.Html, story)));

    // Thin and hard spaces read as spaces.
    private static string Plain(string text) => text.Replace('\u202F', ' ').Replace('\u00A0', ' ').Trim();

    private static byte[] Write(ReportFormat format, SeasonStory story)
    {
        using var output = new MemoryStream();
        SeasonReportWriter.Write(output, format, story, Made);
        return output.ToArray();
    }
}
