using System.Net;
using Clackbeat.Watch.Web;
using Clackbeat.Words;

namespace Clackbeat.Watch.Tests;

/// <summary>What a page opens is in the language and the units that its reader chose there, whatever the program was started with.</summary>
public sealed class ReaderTests
{
    private const double RecordS = 40;

    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    public static TheoryData<string> Languages => [.. Catalogue.All.Select(c => c.Language.Code)];

    [Theory]
    [MemberData(nameof(Languages))]
    public async Task The_report_of_the_last_minute_is_in_the_readers_language_and_units(string language)
    {
        await using WatchServer server = await Start("fr", replays: false);
        (double[] timesS, double[] pressuresPa) = Rams.Samples(RecordS);
        server.Pipeline.Take(timesS, pressuresPa);
        using HttpClient client = Client(server);
        string metric = await client.GetStringAsync($"/report?language={language}&units=metric");
        string us = await client.GetStringAsync($"/report?language={language}&units=us");
        Assert.All(new[] { metric, us }, page => Assert.Contains($"<html lang=\"{language}\">", page, StringComparison.Ordinal));
        string title = Catalogue.Find(language)!.Phrases["page.todo.title"].ToString();
        Assert.Contains($">{title}</h2>", WebUtility.HtmlDecode(metric), StringComparison.Ordinal);
        Assert.True(Starts(metric, "metric") && Starts(us, "us"));
    }

    [Fact]
    public async Task A_recorded_report_is_asked_for_in_the_readers_language_and_units_and_two_readers_dont_disturb_each_other()
    {
        await using WatchServer server = await Start("en");
        using HttpClient client = Client(server);
        string[] wishes = ["es us", "pt metric", "fr us", "en metric"];
        string[] got = await Task.WhenAll(Enumerable.Repeat(wishes, 5).SelectMany(w => w)
            .Select(w => client.GetStringAsync($"/report?language={w.Split(' ')[0]}&units={w.Split(' ')[1]}")));
        Assert.Equal(Enumerable.Repeat(wishes, 5).SelectMany(w => w), got);
    }

    [Theory]
    [InlineData("/report", "es metric")]
    [InlineData("/report?language=xx&units=furlongs", "es metric")]
    public async Task Who_names_none_gets_the_programs_language_and_the_site_files_units(string address, string expected)
    {
        await using WatchServer server = await Start("es");
        using HttpClient client = Client(server);
        Assert.Equal(expected, await client.GetStringAsync(address));
    }

    [Fact]
    public async Task What_can_t_be_done_is_told_in_the_readers_language()
    {
        await using WatchServer server = await Start("en", replays: false);
        using HttpClient client = Client(server);
        HttpResponseMessage none = await client.GetAsync("/report?language=pt");
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
        Assert.Equal(Catalogue.Find("pt")!.Say("page-server.no-report"), await none.Content.ReadAsStringAsync());
    }

    private static bool Starts(string page, string units) =>
        page.Split('\n').Single(l => l.Contains($"id=\"units-{units}\"", StringComparison.Ordinal)).EndsWith(" checked>", StringComparison.Ordinal);

    // A replayed record's report says back how it was asked for; the last minute's is the real one.
    private static async Task<WatchServer> Start(string language, bool replays = true)
    {
        using IDisposable spoken = Catalogue.Use(Catalogue.Find(language)!);
        return await WatchServer.Start(new WatchOptions
        {
            Site = Rams.Site,
            Source = new MadeUpSource(),
            Port = 0,
            ReplayPath = replays ? "monday.csv" : null,
            ReportOf = (_, units, _) => System.Text.Encoding.UTF8.GetBytes($"{Catalogue.Current.Language.Code} {units.ToString().ToLowerInvariant()}"),
        }).WaitAsync(Patience);
    }

    private static HttpClient Client(WatchServer server) => new() { BaseAddress = new Uri($"http://127.0.0.1:{server.Port}"), Timeout = Patience };
}
