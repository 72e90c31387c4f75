using System.Net;
using System.Text;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Plans;
using Clackbeat.Words;

namespace Clackbeat.Watch.Tests;

/// <summary>The plan's page over a real socket: what it answers, what it refuses, and what it keeps from a typed text.</summary>
public sealed class PlanServerTests
{
    private const string Usual = "/plan?units=metric&supply-head=3+m&supply-flow=60+L%2Fmin&lift=25";

    [Fact]
    public async Task The_form_answers_with_what_to_buy_in_one_page_without_scripts()
    {
        await using PlanServer server = await PlanServer.Start(0, Units.Metric, Catalogue.English);
        using HttpClient client = Client(server);
        string form = await client.GetStringAsync("/");
        Assert.Contains("name=\"supply-head\"", form, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", form, StringComparison.Ordinal);

        // A bare 25 in a form of metres is 25 m.
        HttpResponseMessage answer = await client.GetAsync(Usual + "&use-person=24&price-ram=300");
        string page = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("Buy 1 ram for a drive pipe of 2", page, StringComparison.Ordinal);
        Assert.Contains("Local codes and a licensed engineer", page, StringComparison.Ordinal);
        Assert.Contains("sandbox", answer.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_is_there_for_paper_and_as_a_site_file_that_can_be_read()
    {
        await using PlanServer server = await PlanServer.Start(0, Units.Metric, Catalogue.English);
        using HttpClient client = Client(server);
        Assert.StartsWith("%PDF", Encoding.ASCII.GetString(await client.GetByteArrayAsync(Usual + "&as=pdf")), StringComparison.Ordinal);
        Assert.Equal(25, SiteFile.Parse(await client.GetStringAsync(Usual + "&as=site"), "plan.toml").Delivery.HeadM);
    }

    [Theory]
    [InlineData("/plan?supply-head=3&supply-flow=60&lift=high", "Lift:")]
    [InlineData("/plan?supply-head=3&supply-flow=60", "Lift: Write a value here.")]
    [InlineData("/plan?supply-head=3&supply-flow=60&lift=25&use-person=many", "Water that is needed:")]
    [InlineData("/plan?supply-head=0&supply-flow=60&lift=25", "lives on water that falls")]
    public async Task A_slip_or_an_impossible_wish_comes_back_with_its_reason_and_what_was_typed(string address, string reason)
    {
        await using PlanServer server = await PlanServer.Start(0, Units.Metric, Catalogue.English);
        using HttpClient client = Client(server);
        HttpResponseMessage answer = await client.GetAsync(address);
        string page = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(reason, WebUtility.HtmlDecode(page), StringComparison.Ordinal);
        Assert.Contains("name=\"supply-flow\" value=\"60\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_typed_never_becomes_markup()
    {
        await using PlanServer server = await PlanServer.Start(0, Units.Metric, Catalogue.English);
        using HttpClient client = Client(server);
        string page = await (await client.GetAsync("/plan?lift=%22%3E%3Cscript%3Ealert(1)%3C%2Fscript%3E&supply-head=3&supply-flow=60")).Content.ReadAsStringAsync();
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.Contains("&lt;script&gt;", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_page_and_another_name_get_nothing()
    {
        await using PlanServer server = await PlanServer.Start(0, Units.Metric, Catalogue.English);
        using HttpClient client = Client(server);
        using var foreign = new HttpRequestMessage(HttpMethod.Get, "/");
        foreign.Headers.Add("Sec-Fetch-Site", "cross-site");
        Assert.Equal(HttpStatusCode.Forbidden, (await client.SendAsync(foreign)).StatusCode);
        using var renamed = new HttpRequestMessage(HttpMethod.Get, "/");
        renamed.Headers.Host = "evil.example";
        Assert.Equal(HttpStatusCode.MisdirectedRequest, (await client.SendAsync(renamed)).StatusCode);
    }

    [Fact]
    public async Task It_speaks_the_language_and_the_units_it_was_started_with()
    {
        await using PlanServer server = await PlanServer.Start(0, Units.Us, Catalogue.Find("es")!);
        using HttpClient client = Client(server);
        string form = WebUtility.HtmlDecode(await client.GetStringAsync("/"));
        Assert.Contains("lang=\"es\"", form, StringComparison.Ordinal);
        Assert.Contains("16 gpm", form, StringComparison.Ordinal);
        Assert.Contains("Compre 1 ariete", await client.GetStringAsync("/plan?units=us&supply-head=10&supply-flow=12&lift=85"), StringComparison.Ordinal);
    }

    private static HttpClient Client(PlanServer server) => new() { BaseAddress = new Uri($"http://127.0.0.1:{server.Port}"), Timeout = TimeSpan.FromSeconds(60) };
}
