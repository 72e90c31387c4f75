using System.Diagnostics;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Dom.Events;
using AngleSharp.Html.Parser;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Records.Samples;
using Clackbeat.Report.Export;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Tests;

public sealed partial class HtmlReportSpecs
{
    public static TheoryData<string> Cases => [.. Reports.Cases.Keys];

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_page_is_well_formed(string name)
    {
        var errors = new List<string>();
        var parser = new HtmlParser();
        parser.Error += (_, e) => errors.Add(e is HtmlErrorEvent error ? $"{error.Message} at {error.Position}" : "an error");
        string html = Reports.Html(Reports.Cases[name]);
        // The parser takes the capital in </clipPath> for a mistake, where HTML §13.2.6.5 compares in lower case.
        parser.ParseDocument(ClipPath().Replace(html, ""));
        Assert.Empty(errors);
        IHtmlDocument page = parser.ParseDocument(html);
        string[] ids = [.. page.QuerySelectorAll("[id]").Select(e => e.Id!)];
        Assert.Equal(ids.Distinct().Order(), ids.Order());
        Assert.All(page.QuerySelectorAll("a[href^='#']"), a => Assert.Contains(a.GetAttribute("href")![1..], ids));
        Assert.All(page.QuerySelectorAll("[clip-path]"), e => Assert.Contains(e.GetAttribute("clip-path")![5..^1], ids));
        Assert.Equal("en", page.DocumentElement.GetAttribute("lang"));
    }

    [Fact]
    public void On_a_phone_the_cells_of_a_wide_table_stand_below_each_other_with_their_heads_and_no_word_is_broken()
    {
        IHtmlDocument page = Reports.Page(MadeUpRam.Analysis());
        string style = page.QuerySelector("style")!.TextContent;
        Assert.Contains(".stack td::before{content:attr(data-head)", style, StringComparison.Ordinal);
        Assert.DoesNotContain("td{overflow-wrap:anywhere", style, StringComparison.Ordinal);
        IElement[] wide = [.. page.QuerySelectorAll("table").Where(t => t.QuerySelectorAll("thead th").Length > 2)];
        Assert.NotEmpty(wide);
        Assert.All(wide, table =>
        {
            Assert.Contains("stack", table.ClassList);
            string[] heads = [.. table.QuerySelectorAll("thead th").Skip(1).Select(h => h.TextContent)];
            Assert.All(table.QuerySelectorAll("tbody tr:not(.group)"), row => Assert.Equal(heads, row.QuerySelectorAll("td").Select(c => c.GetAttribute("data-head"))));
        });
    }

    [Theory]
    [InlineData("es")]
    [InlineData("fr")]
    [InlineData("pt")]
    public void The_curves_of_fatigue_of_a_steel_pipe_are_named_in_the_readers_language(string language)
    {
        using IDisposable spoken = Catalogue.Use(Catalogue.Find(language)!);
        Assert.All(new[] { SteelFatigue.MillWeld, SteelFatigue.Thread }, name => Assert.NotEqual(name, ReportWords.CurveName(name)));
        Assert.NotEqual(SteelFatigue.Source, ReportWords.CurveSource(SteelFatigue.Source));
        Assert.Equal("Folkman 2020", ReportWords.CurveName("Folkman 2020"));
    }

    [Fact]
    public void What_was_marked_in_the_record_stands_in_a_list_and_as_flags_in_the_pictures()
    {
        RamAnalysis plain = MadeUpRam.Analysis();
        RamAnalysis marked = plain with { Input = plain.Input with { Marks = [new RecordMark(12, "Weight <b>changed</b>"), new RecordMark(20, "Gate valve moved")] } };
        IHtmlDocument page = new HtmlParser().ParseDocument(Reports.Html(marked));
        string[] rows = [.. page.QuerySelectorAll("#record li").Select(l => l.TextContent.Replace('\u00a0', ' '))];
        Assert.Contains(rows, r => r.StartsWith("1, after 12", StringComparison.Ordinal) && r.EndsWith("Weight <b>changed</b>", StringComparison.Ordinal));
        Assert.Contains(rows, r => r.StartsWith("2, after 20", StringComparison.Ordinal));

        // Each flag is a line and a triangle more in each of the three pictures along the record.
        int Shapes(IHtmlDocument of) => of.QuerySelectorAll("#record svg *").Length;
        Assert.True(Shapes(page) > Shapes(new HtmlParser().ParseDocument(Reports.Html(plain))));
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Nothing_is_asked_from_outside_and_nothing_runs(string name)
    {
        // The letters of a packed typeface spell anything, even "//".
        string html = Packed().Replace(Reports.Html(Reports.Cases[name]), "base64,");
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("@import", html, StringComparison.OrdinalIgnoreCase);
        Assert.Empty(Address().Matches(html));
        Assert.All(Reference().Matches(html), m => Assert.StartsWith("data:", m.Groups[1].Value.Trim('"', '\''), StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Every_plot_and_table_speaks_to_those_who_cannot_see(string name)
    {
        IHtmlDocument page = Reports.Page(Reports.Cases[name]);
        Assert.All(page.QuerySelectorAll("figure > svg"), svg =>
        {
            Assert.Equal("img", svg.GetAttribute("role"));
            Assert.All(svg.GetAttribute("aria-labelledby")!.Split(' '), id => Assert.True(page.GetElementById(id).Said().Length > 5));
        });
        Assert.All(page.QuerySelectorAll("svg:not([role])"), svg => Assert.Equal("true", svg.GetAttribute("aria-hidden")));
        Assert.All(page.QuerySelectorAll("th"), th => Assert.Contains(th.GetAttribute("scope"), (string[])["col", "row", "rowgroup"]));
        Assert.Single(page.QuerySelectorAll("h1"));
        int[] levels = [.. page.QuerySelectorAll("h1,h2,h3,h4").Select(h => h.LocalName[1] - '0')];
        Assert.All(levels.Zip(levels.Skip(1)), pair => Assert.True(pair.Second <= pair.First + 1, "a heading level is skipped"));
    }

    [Fact]
    public void A_hostile_site_name_is_shown_and_does_nothing()
    {
        const string Name = "<script>alert('x')</script> \"Ram\" & <img src=x onerror=alert(1)> Źródło Πηγή";
        IHtmlDocument page = Reports.Page(MadeUpRam.Analysis(), site: MadeUpRam.Site(Name));
        Assert.Equal(Name, page.QuerySelector("h1").Said());
        Assert.Empty(page.QuerySelectorAll("script"));
        Assert.Empty(page.QuerySelectorAll("img"));
        Assert.Equal(Name + ": ram report", page.Title);
    }

    [Fact]
    public void Hostile_words_in_the_analysis_do_nothing_either()
    {
        const string Bad = "</section><script>x</script>";
        RamAnalysis analysis = MadeUpRam.Analysis() with
        {
            Input = MadeUpRam.Analysis().Input with { File = Bad, SourceLosses = [MadeUpRam.Told(Bad)] },
            Findings = [Site.Facts.Fact.Of(Bad, ("what", Bad))],
            Limits = [Site.Facts.Fact.Of(Bad)],
            Diagnosis = [new Finding(Bad, 0.5, [MadeUpRam.Told(Bad)], MadeUpRam.Told(Bad))],
            Pipe = new PipeCheck { Source = new RatingSource(RatingOrigin.Table) { Name = Bad, Citation = Bad }, Fittings = [new FittingCheck(Bad, 1e5, PipeVerdict.Near)] },
        };
        Assert.Empty(Reports.Page(analysis, baseline: analysis).QuerySelectorAll("script"));
    }

    [Fact]
    public void The_verdict_says_how_the_ram_does()
    {
        IElement verdict = Reports.Page(MadeUpRam.Analysis()).QuerySelector(".verdict")!;
        Assert.Contains("beats 47.", verdict.Said(), StringComparison.Ordinal);
        Assert.Contains("Running well", verdict.Said(), StringComparison.Ordinal);
        Assert.True(verdict.ClassList.Contains("well"));
    }

    [Theory]
    [InlineData(PipeVerdict.Unknown, "Not judged", "plain")]
    [InlineData(PipeVerdict.Near, "close to the drive pipe's limit", "look")]
    [InlineData(PipeVerdict.Over, "Stop the ram", "stop")]
    public void The_verdict_is_honest_about_the_pipe(PipeVerdict verdict, string words, string tone)
    {
        RamAnalysis analysis = MadeUpRam.Analysis();
        IHtmlDocument page = Reports.Page(analysis with { Pipe = analysis.Pipe with { Verdict = verdict } });
        Assert.Contains(words, Reports.FirstPage(page), StringComparison.Ordinal);
        Assert.True(page.QuerySelector(".verdict")!.ClassList.Contains(tone));
    }

    [Fact]
    public void Clipped_peaks_are_said_to_be_too_low()
    {
        RamAnalysis analysis = MadeUpRam.Analysis();
        IHtmlDocument page = Reports.Page(analysis with
        {
            Input = analysis.Input with { ClippedSamples = 40 },
            BeatList = [.. analysis.BeatList.Select(b => b with { Clipped = true })],
        });
        Assert.Contains("40 samples at the end of the sensor's range", Reports.FirstPage(page), StringComparison.Ordinal);
        Assert.Contains("peaks are higher", page.QuerySelector("#annex").Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Withheld_figures_are_called_so_and_no_number_is_made_up()
    {
        IHtmlDocument page = Reports.Page(Reports.Cases["flows withheld"]);
        Assert.Equal(3, page.QuerySelectorAll(".tiles .none").Length);
        Assert.DoesNotContain("NaN", page.Body.Said(), StringComparison.Ordinal);
        Assert.Contains("can't be found from this record", page.QuerySelector("#annex").Said(), StringComparison.Ordinal);
        Assert.Contains("Flow is withheld: the record leads to a flow against its direction", page.QuerySelector("#limits").Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Quantities_stand_in_both_unit_systems_and_the_page_starts_with_the_keepers()
    {
        IHtmlDocument page = Reports.Page(MadeUpRam.Analysis(), site: MadeUpRam.Site() with { Units = Units.Us });
        Assert.True(((IHtmlInputElement)page.GetElementById("units-us")!).IsDefaultChecked);
        Assert.False(((IHtmlInputElement)page.GetElementById("units-metric")!).IsDefaultChecked);
        IElement delivered = page.QuerySelectorAll(".tiles > div")[1];
        // 7.176 L/min over 3.785411784 L a US gallon (NIST SP 811) is 1.896.
        Assert.StartsWith("7.2 ±", delivered.QuerySelector(".m").Said(), StringComparison.Ordinal);
        Assert.StartsWith("1.90", delivered.QuerySelector(".us").Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_baseline_adds_a_column_of_changes_and_only_clear_changes_have_a_number()
    {
        RamAnalysis now = MadeUpRam.Analysis();
        RamAnalysis before = now with
        {
            Flow = now.Flow with { DeliveredM3PerS = new Figure(9.0 / 60_000, 0.3 / 60_000), WasteM3PerS = new Figure(84.0 / 60_000, 3.0 / 60_000) },
        };
        IHtmlDocument page = Reports.Page(now, before);
        string Change(string row) => page.QuerySelectorAll("#all tr").Single(r => r.QuerySelector("th")!.FirstChild.Said() == row).QuerySelectorAll("td")[2].Said();
        // 7.176 against 9.0 is a fall of 20 %, wider than the margins 0.35 and 0.3 together.
        Assert.Equal("−20 %", Change("Delivered"));
        Assert.Equal("no clear change", Change("To waste"));
        Assert.Contains("baseline", page.QuerySelector("#plot-overlay").Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Advice_comes_with_the_caution_to_let_the_pressure_off_first()
    {
        RamAnalysis analysis = MadeUpRam.Analysis() with { Diagnosis = [new Finding("waste-valve-sticking", 0.8, [MadeUpRam.Told("Some beats are long.")], MadeUpRam.Told("Clean the guide."))] };
        string said = Reports.Page(analysis).QuerySelector("#findings").Said();
        Assert.Contains("Clean the guide.", said, StringComparison.Ordinal);
        Assert.Contains("Shut the gate valve", said, StringComparison.Ordinal);
    }

    [Fact]
    public void The_hour_of_making_is_shown_with_its_zone() =>
        Assert.Contains("3 May 2026, 09:40 UTC+02:00", Reports.Page(MadeUpRam.Analysis()).QuerySelector(".source").Said(), StringComparison.Ordinal);

    [Fact]
    public void A_report_on_an_hour_stays_small_and_quick()
    {
        RamAnalysis hour = MadeUpRam.Analysis(beats: 2850, gap: new Gap(1400, 300));
        var clock = Stopwatch.StartNew();
        byte[] html = Reports.Write(ReportFormat.Html, hour, MadeUpRam.Analysis());
        Assert.True(html.Length < 1_500_000, $"{html.Length} bytes");
        Assert.True(clock.Elapsed < TimeSpan.FromSeconds(3), $"{clock.Elapsed.TotalSeconds} s");
    }

    [GeneratedRegex("<clipPath.*?</clipPath>", RegexOptions.Singleline)]
    private static partial Regex ClipPath();

    [GeneratedRegex("base64,[A-Za-z0-9+/=]+")]
    private static partial Regex Packed();

    [GeneratedRegex(@"(?:https?:)?//[a-z0-9]", RegexOptions.IgnoreCase)]
    private static partial Regex Address();

    [GeneratedRegex(@"(?:url\((?!#)|src\s*=\s*)([^)\s>]+)", RegexOptions.IgnoreCase)]
    private static partial Regex Reference();
}
