using Clackbeat.Watch.Overview;
using Clackbeat.Watch.Tests;

namespace Clackbeat.Browser;

/// <summary>The pages of all rams and of one in a real browser: on a phone and on a desk, light and dark, for the accessibility engine.</summary>
[Collection(BrowserTests.Name)]
public sealed class AllRamsTests(Chromium chromium)
{
    [SkippableTheory(Timeout = 120_000)]
    [InlineData("Phone", "dark")]
    [InlineData("Desktop", "light")]
    public async Task Pages_are_in_order_for_the_accessibility_engine_and_fit_the_screen(string screen, string theme)
    {
        Chromium.SkipWithoutBrowser();
        using var season = new OneSeason();
        await using OverviewServer server = await season.Serve();
        await using Window window = await chromium.Open(Enum.Parse<Screen>(screen), theme);
        if (screen == "Phone")
        {
            await window.Page.SetViewportSizeAsync(360, 740);
        }

        await window.Go(server.Port);
        await IsInOrder(window);
        await window.Page.Locator("tbody a").First.ClickAsync();
        await window.Page.Locator("#calendar").WaitForAsync();
        await IsInOrder(window);
        await window.Picture($"season-{screen.ToLowerInvariant()}");
        await window.Page.Locator("a[href^='/upkeep']").ClickAsync();
        await window.Page.Locator("#checks").WaitForAsync();
        await IsInOrder(window);
        await window.Page.GoBackAsync();
        await window.Page.Locator("#compare button").ClickAsync();
        await window.Page.Locator("#again").WaitForAsync();
        await IsInOrder(window);
        Assert.Empty(window.Errors);
        Assert.All(window.Requests, r => Assert.StartsWith($"http://127.0.0.1:{server.Port}/", r, StringComparison.Ordinal));
    }

    private static async Task IsInOrder(Window window)
    {
        Assert.Empty(await window.Violations());
        Assert.False(await window.Read<bool>("document.documentElement.scrollWidth > document.documentElement.clientWidth"));
    }
}
