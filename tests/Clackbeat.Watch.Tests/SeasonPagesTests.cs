using System.Globalization;
using System.Net;
using Clackbeat.Watch.Overview;

namespace Clackbeat.Watch.Tests;

/// <summary>The pages of one ram over a real socket, on a season that was made up: what they show, in which language, and what they refuse.</summary>
public sealed class SeasonPagesTests : IDisposable
{
    private readonly OneSeason _season = new();

    [Fact]
    public async Task The_season_shows_figures_pictures_marks_calendar_and_beats_and_runs_nothing()
    {
        (string page, HttpResponseMessage answer) = await Get(Address("/season"));
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<b>", page.Replace("<b>By water</b>", "", StringComparison.Ordinal).Replace("<b aria", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("default-src 'none'; style-src 'self'", answer.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        string words = WebUtility.HtmlDecode(page).Replace('\u00a0', ' ');
        Assert.Contains("new rubber: 50.0 % to 60.0 %", words, StringComparison.Ordinal);
        Assert.Contains("<figure id=\"plot-efficiency\"", page, StringComparison.Ordinal);

        // 5·10⁻⁵ m³/s through 24 h are 4320 L, and 5·10⁻⁶ m³/s are 432 L.
        Assert.Contains("4300 ± 400 L; ran 24 h", words, StringComparison.Ordinal);
        Assert.Contains("class=\"gap", page, StringComparison.Ordinal);
        Assert.Contains("class=\"stood", page, StringComparison.Ordinal);
        Assert.Contains("0.0600 L", words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("es", "Tendencias", "gal")]
    [InlineData("fr", "Tendances", "gal")]
    [InlineData("pt", "Tendências", "gal")]
    public async Task Each_reader_has_a_language_and_units(string language, string trends, string unit)
    {
        (string page, _) = await Get(Address("/season", $"&language={language}&units=us&days=92"));
        Assert.Contains($"<html lang=\"{language}\">", page, StringComparison.Ordinal);
        Assert.Contains(trends, WebUtility.HtmlDecode(page), StringComparison.Ordinal);
        Assert.Contains(unit, page, StringComparison.Ordinal);
        Assert.DoesNotContain("season-page.", page, StringComparison.Ordinal);
    }

    /// <summary>Independent ± add by squares (JCGM 100:2008, 5.1.2): 3 and 4 make 5.</summary>
    [Fact]
    public async Task Two_bursts_stand_side_by_side_with_a_difference_and_its_range()
    {
        (string day, _) = await Get(Address("/bursts", "&day=2026-03-06"));
        Assert.Contains(Uri.EscapeDataString(Key(5)), day, StringComparison.Ordinal);
        (string page, _) = await Get(Address("/compare", $"&a={Uri.EscapeDataString(Key(5))}&b={Uri.EscapeDataString(Key(40))}"));
        string words = WebUtility.HtmlDecode(page).Replace('\u00a0', ' ');
        Assert.Contains("50 ± 3 %", words, StringComparison.Ordinal);
        Assert.Contains("60 ± 4 %", words, StringComparison.Ordinal);
        Assert.Contains("10.0 % <span class=\"small\">(5.0 to 15.0)", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_periods_are_compared_by_their_days()
    {
        (string page, _) = await Get(Address("/compare", "&a-from=2026-03-02&a-to=2026-03-29&b-from=2026-04-01&b-to=2026-04-28"));
        Assert.Contains("10.0 % <span class=\"small\">(10.0 to 10.0)", WebUtility.HtmlDecode(page), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/season?ram=..%2Fetc", HttpStatusCode.NotFound)]
    [InlineData("/compare?ram=Mill%20%3Cb%3E&a-from=yesterday", HttpStatusCode.UnprocessableEntity)]
    [InlineData("/compare?ram=Mill%20%3Cb%3E&a-from=2026-03-09&a-to=2026-03-01", HttpStatusCode.UnprocessableEntity)]
    [InlineData("/compare?ram=Mill%20%3Cb%3E&a-from=2020-03-01&a-to=2020-03-09&b-from=2026-03-01&b-to=2026-03-09", HttpStatusCode.UnprocessableEntity)]
    [InlineData("/bursts?ram=Mill%20%3Cb%3E&day=9999-12-31", HttpStatusCode.UnprocessableEntity)]
    public async Task A_mistake_is_told_and_nothing_breaks(string address, HttpStatusCode status)
    {
        (string page, HttpResponseMessage answer) = await Get(address);
        Assert.Equal(status, answer.StatusCode);
        Assert.Contains("role=\"alert\"", page, StringComparison.Ordinal);
    }

    public void Dispose() => _season.Dispose();

    private static string Address(string path, string more = "") => $"{path}?ram={Uri.EscapeDataString(OneSeason.Ram)}{more}";

    private static string Key(int day) => OneSeason.Start(day).ToString("O", CultureInfo.InvariantCulture);

    private async Task<(string Page, HttpResponseMessage Answer)> Get(string address)
    {
        await using OverviewServer server = await _season.Serve();
        using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{server.Port}") };
        HttpResponseMessage answer = await client.GetAsync(address);
        return (await answer.Content.ReadAsStringAsync(), answer);
    }
}
