using System.Globalization;
using System.Text.RegularExpressions;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.Watch.Web;

namespace Clackbeat.Browser;

/// <summary>What a keeper sees in a real browser.</summary>
[Collection(BrowserTests.Name)]
public sealed partial class PageTests(Chromium chromium)
{
    private const double HeadStartS = 30;

    [SkippableFact(Timeout = 180_000)]
    public async Task The_page_streams_shows_its_figures_and_asks_nothing_of_any_other_machine()
    {
        WatchServer server = await chromium.Healthy();
        await using Window window = await chromium.Open();
        await window.Go(server.Port);
        await window.Until("window.clackbeat?.stats.frames > 30");
        await window.Until("document.querySelectorAll('#tiles .number').length === 6");
        double beforeS = await window.Read<double>("window.clackbeat.stats.newestS");
        await window.Until($"window.clackbeat.stats.newestS > {(beforeS + 1).ToString(CultureInfo.InvariantCulture)}");
        Assert.Equal(Rams.Site.Name, await window.Text("site"));
        Assert.Equal("1000", await window.Page.Locator("#health dd").First.InnerTextAsync());
        await window.Page.Locator("#theme").ClickAsync();
        await window.Page.Locator("#language").ClickAsync();
        Assert.Empty(window.Errors);
        Assert.True(window.Requests.Count > 10);
        Assert.All(window.Requests, r => Assert.StartsWith($"http://127.0.0.1:{server.Port}/", r, StringComparison.Ordinal));
    }

    [SkippableTheory(Timeout = 240_000)]
    [InlineData(RamCondition.StoppedOpen, "Stopped, waste valve open")]
    [InlineData(RamCondition.StoppedShut, "Stopped, waste valve shut")]
    public async Task A_stopped_ram_is_told_within_three_seconds_of_its_last_beat_with_how_to_start_it(RamCondition condition, string headline)
    {
        var source = PacedSource.Of(
            Rams.Simulation(1000, new Fault { Condition = condition, StopsAtS = HeadStartS + 5 }), HeadStartS);
        await using WatchServer server = await Chromium.Serve(source);
        await using Window window = await chromium.Open(Screen.Phone);
        await window.Go(server.Port);
        await window.Until($"document.getElementById('headline').textContent === '{headline}'");
        DateTime told = DateTime.UtcNow;
        (long column, int beat) = (long.MaxValue - 1, int.MaxValue);
        double lastClosureS = server.Pipeline.Look(ref column, ref beat).LastClosureS!.Value;
        Assert.InRange((told - source.At(lastClosureS)).TotalSeconds, 0, 3);
        Assert.NotEmpty(await window.Text("restart-how"));
        await window.Until("document.getElementById('tiles').classList.contains('before')", 20);
        Assert.Empty(window.Errors);
    }

    [SkippableFact(Timeout = 240_000)]
    public async Task A_dropped_connection_is_told_and_made_good()
    {
        WatchServer server = await chromium.Healthy();
        await using var between = new BreakableLine(server.Port);
        await using Window window = await chromium.Open();
        await window.Go(between.Port);
        await window.Until("window.clackbeat?.stats.frames > 10");
        between.Cut();
        await window.Until("document.getElementById('headline').textContent === 'No connection to the program'");
        double cutS = await window.Read<double>("window.clackbeat.stats.newestS");
        between.Mend();
        await window.Until("window.clackbeat.stats.resyncs === 2");
        await window.Until("document.getElementById('headline').textContent !== 'No connection to the program'");
        double againS = await window.Read<double>("window.clackbeat.stats.newestS");
        Assert.True(againS > cutS + 3);

        // What was missed meanwhile is drawn too: nothing of the last eight seconds is a gap.
        await window.Page.WaitForTimeoutAsync(3500);
        Assert.DoesNotContain("no samples", await window.Page.Locator("#trace").GetAttributeAsync("aria-label"), StringComparison.Ordinal);
        Assert.False(await window.Read<bool>("window.clackbeat.hasGap()"));
    }

    [SkippableTheory(Timeout = 240_000)]
    [InlineData("Phone")]
    [InlineData("Desktop")]
    public async Task The_accessibility_engine_finds_nothing_wrong_in_light_and_dark(string screen)
    {
        WatchServer server = await chromium.Healthy();
        await using Window window = await chromium.Open(Enum.Parse<Screen>(screen));
        await window.Go(server.Port);
        await window.Until("document.querySelectorAll('#tiles .number').length === 6");
        await window.Until("document.querySelector('#finding .top')");
        Assert.Empty(await window.Violations());
        await window.Page.Locator("#theme").ClickAsync();
        Assert.Equal("dark", await window.Read<string>("document.documentElement.dataset.theme"));
        Assert.Empty(await window.Violations());
    }

    [SkippableFact(Timeout = 180_000)]
    public async Task Everything_can_be_done_with_the_keyboard_and_the_units_change_at_once()
    {
        WatchServer server = await chromium.Healthy();
        await using Window window = await chromium.Open();
        await window.Go(server.Port);
        await window.Until("document.querySelectorAll('#tiles .number').length === 6");
        List<string> reached = [];
        for (int i = 0; i < 14; i++)
        {
            await window.Page.Keyboard.PressAsync("Tab");
            string id = await window.Read<string>("document.activeElement.id || document.activeElement.className");
            reached.Add(id);
            if (id == "units" && !reached[..^1].Contains(id))
            {
                await window.Page.Keyboard.PressAsync("Enter");
            }
        }

        Assert.Superset(new HashSet<string> { "skip", "units", "theme", "language", "report" }, reached.ToHashSet());
        Assert.Equal("psi", await window.Text("units"));
        Assert.Contains("psi", await window.Text("tiles"), StringComparison.Ordinal);
    }

    /// <summary>Verdict, what to do, six figures, the beat, the pipe, the record: what a report's first page has, in its order; then the rest.</summary>
    [SkippableTheory(Timeout = 240_000)]
    [InlineData("Phone", "en")]
    [InlineData("Phone", "es")]
    [InlineData("Desktop", "fr")]
    public async Task The_page_is_read_in_the_order_of_a_reports_first_page_and_no_figure_wraps(string screen, string language)
    {
        string[] order = ["verdict", "todo", "tiles", "overlay", "pipe-says", "standing", "trace", "finding", "recordings", "health"];
        WatchServer server = await chromium.Healthy();
        await using Window window = await chromium.Open(Enum.Parse<Screen>(screen), language: language);
        if (screen == "Phone")
        {
            await window.Page.SetViewportSizeAsync(360, 740);
        }

        await window.Go(server.Port);
        await window.Until("document.querySelectorAll('#tiles .number').length === 6");
        await window.Until("document.querySelector('#finding .top')");
        string ids = string.Join(',', order);
        Assert.True(await window.Read<bool>(
            $"'{ids}'.split(',').map(id => document.getElementById(id)).every((e, i, all) => !i || all[i - 1].compareDocumentPosition(e) & Node.DOCUMENT_POSITION_FOLLOWING)"));
        Assert.True(await window.Read<bool>(
            $"'{ids}'.split(',').map(id => document.getElementById(id).getBoundingClientRect().top).every((y, i, all) => !i || y >= all[i - 1] - 60)"));
        Assert.True(await window.Read<bool>("document.documentElement.scrollWidth <= document.documentElement.clientWidth"));

        // A figure, its ± and its unit stand on one line and within their box.
        Assert.True(await window.Read<bool>(
            """
            [...document.querySelectorAll('.tiles .value')].every(v => {
              const box = v.closest('.tiles > div').getBoundingClientRect();
              const parts = [...v.children].map(c => c.getBoundingClientRect());
              return parts.every(p => p.right <= box.right && p.left >= box.left && p.top < parts[0].bottom && p.bottom > parts[0].top);
            })
            """));
        Assert.Equal(language, await window.Read<string>("document.documentElement.lang"));
        string report = (await window.Page.Locator("#report").GetAttributeAsync("href"))!;
        Assert.Contains($"language={language}", report, StringComparison.Ordinal);
        await window.Page.Locator("#units").ClickAsync();
        Assert.Contains("units=us", await window.Page.Locator("#report").GetAttributeAsync("href"), StringComparison.Ordinal);
    }

    [SkippableFact(Timeout = 180_000)]
    public async Task The_other_language_leaves_no_word_behind()
    {
        WatchServer server = await chromium.Healthy();
        await using Window english = await chromium.Open();
        await using Window spanish = await chromium.Open(language: "es");
        foreach (Window window in new[] { english, spanish })
        {
            await window.Go(server.Port);
            await window.Until("document.querySelectorAll('#tiles .number').length === 6");
            await window.Until("document.querySelector('#finding .top')");
        }

        string[] own = ["Clackbeat", Rams.Site.Name, "bar", "EN", "ES", "L/min", "m/s", "%"];
        HashSet<string> before = [.. Lines(await english.Page.Locator("body").InnerTextAsync()).Except(own)];
        string[] after = [.. Lines(await spanish.Page.Locator("body").InnerTextAsync())];
        Assert.Equal("es", await spanish.Read<string>("document.documentElement.lang"));
        Assert.DoesNotContain(after, l => Letters().IsMatch(l) && before.Contains(l));
        Assert.DoesNotContain(after, l => Key().IsMatch(l));
    }

    [SkippableFact(Timeout = 240_000)]
    public async Task A_fault_is_named_with_what_shows_it_and_what_to_check_first()
    {
        await using WatchServer server = await Chromium.Serve(PacedSource.Of(
            Rams.Simulation(1000, new Fault { Condition = RamCondition.WasteValveSticking, Severity = 0.9 }), 60));
        await using Window window = await chromium.Open(Screen.Phone, "dark", "es");
        await window.Go(server.Port);
        await window.Until("document.querySelectorAll('#finding li').length > 0");
        Assert.Contains("la válvula de descarga se traba", await window.Text("finding"), StringComparison.OrdinalIgnoreCase);
        Assert.Contains("Cierre la llave de paso", await window.Text("todo"), StringComparison.Ordinal);
        Assert.Equal(Conditions.WasteValveSticking, server.Worker.Whole()!.Diagnosis[0].Condition);
        Assert.Empty(await window.Violations());
    }

    private static IEnumerable<string> Lines(string text) => text.Split('\n').Select(l => l.Trim()).Where(l => l.Length > 0);

    [GeneratedRegex(@"\p{L}{3}")]
    private static partial Regex Letters();

    [GeneratedRegex(@"^[a-z]+\.[a-z.\-]+$")]
    private static partial Regex Key();
}
