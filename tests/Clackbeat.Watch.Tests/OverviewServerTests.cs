using System.Net;
using Clackbeat.Season.Overview;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Overview;

namespace Clackbeat.Watch.Tests;

/// <summary>The page of all rams over a real socket: what it shows, in which language, and what it refuses.</summary>
public sealed class OverviewServerTests
{
    [Fact]
    public async Task The_ram_that_needs_a_visit_comes_first_with_what_to_do_and_nothing_runs()
    {
        await using OverviewServer server = await TwoRams.Serve();
        using HttpClient client = Client(server);
        HttpResponseMessage answer = await client.GetAsync("/");
        string page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.True(page.IndexOf("Ford <b>", StringComparison.Ordinal) < page.IndexOf("Mill", StringComparison.Ordinal));
        Assert.Contains("1 of 2 rams needs a visit", page, StringComparison.Ordinal);
        Assert.Contains("7200 ± 400 L", page.Replace('\u00a0', ' '), StringComparison.Ordinal);
        Assert.Contains("Keep fingers and face clear", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain("script-src", answer.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_name_never_becomes_markup()
    {
        await using OverviewServer server = await TwoRams.Serve();
        using HttpClient client = Client(server);
        Assert.DoesNotContain("<b>", await client.GetStringAsync("/?find=%22%3E%3Cb%3E"), StringComparison.Ordinal);
        Assert.DoesNotContain("<b>", await client.GetStringAsync("/"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/?show=visits", "Ford", "Mill")]
    [InlineData("/?find=anna", "Mill", "Ford")]
    public async Task A_reader_chooses_what_is_shown(string address, string shown, string hidden)
    {
        await using OverviewServer server = await TwoRams.Serve();
        using HttpClient client = Client(server);
        string page = await client.GetStringAsync(address);
        Assert.Contains(shown, page, StringComparison.Ordinal);
        Assert.DoesNotContain(hidden, page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("es", "necesita una visita", "Mantenga")]
    [InlineData("fr", "a besoin d'une visite", "Gardez")]
    [InlineData("pt", "precisa de visita", "Mantenha")]
    public async Task Each_reader_has_a_language_and_units(string language, string headline, string caution)
    {
        await using OverviewServer server = await TwoRams.Serve();
        using HttpClient client = Client(server);
        string page = WebUtility.HtmlDecode(await client.GetStringAsync($"/?language={language}&units=us"));
        Assert.Contains($"<html lang=\"{language}\">", page, StringComparison.Ordinal);
        Assert.Contains(headline, page, StringComparison.Ordinal);
        Assert.Contains(caution, page, StringComparison.Ordinal);
        // 7200 L are 1902 US gallons of 3.785 411 784 L (NIST Handbook 44).
        Assert.Contains("1900", page, StringComparison.Ordinal);
        Assert.Contains("gal", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_rams_report_opens_and_one_that_is_not_there_does_not()
    {
        await using OverviewServer server = await TwoRams.Serve();
        using HttpClient client = Client(server);
        Assert.Equal("season of Mill in Us", await client.GetStringAsync("/season/report?ram=Mill&units=us"));
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/season/report?ram=../etc/passwd")).StatusCode);
    }

    [Fact]
    public async Task Another_page_and_another_name_get_nothing()
    {
        await using OverviewServer server = await TwoRams.Serve();
        using HttpClient client = Client(server);
        using var foreign = new HttpRequestMessage(HttpMethod.Get, "/");
        foreign.Headers.Add("Sec-Fetch-Site", "cross-site");
        Assert.Equal(HttpStatusCode.Forbidden, (await client.SendAsync(foreign)).StatusCode);
        using var renamed = new HttpRequestMessage(HttpMethod.Get, "/");
        renamed.Headers.Host = "evil.example";
        Assert.Equal(HttpStatusCode.MisdirectedRequest, (await client.SendAsync(renamed)).StatusCode);
    }

    [Fact]
    public void As_a_file_it_needs_no_server()
    {
        string page = OverviewServer.File(VisitRules.Judge(new TwoRams().Summaries(), TwoRams.Entries, TwoRams.Now), TwoRams.Now, Units.Metric);
        Assert.DoesNotContain("href=\"/", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<form", page, StringComparison.Ordinal);
        Assert.Contains("<style>", page, StringComparison.Ordinal);
        Assert.Contains("<svg class=\"map\"", page, StringComparison.Ordinal);
    }

    private static HttpClient Client(OverviewServer server) => new() { BaseAddress = new Uri($"http://127.0.0.1:{server.Port}") };
}
