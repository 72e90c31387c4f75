using Clackbeat.Watch.Web;
using Microsoft.Playwright;

namespace Clackbeat.Browser;

/// <summary>A keeper tries a change on the twin of the newest minute, and looks into its beat.</summary>
[Collection(BrowserTests.Name)]
public sealed class WhatIfPageTests(Chromium chromium)
{
    private const string Answered = "!window.clackbeat.whatIf().isAsking";

    [SkippableFact(Timeout = 300_000)]
    public async Task Sliders_tell_what_a_change_would_do_and_the_beat_plays_in_slow_motion()
    {
        WatchServer server = await chromium.Healthy();
        await using Window window = await chromium.Open(Screen.Phone);
        await window.Go(server.Port);
        await window.Until("document.querySelectorAll('#tiles .number').length === 6");
        await window.Until("window.clackbeat?.whatIf()");
        double seen = await window.Read<double>("window.clackbeat.stats.frames");
        await window.Page.Locator("#twin-fit").FocusAsync();
        await window.Page.Keyboard.PressAsync("Enter");
        // A busy machine may take a minute for what takes some seconds of a core.
        await window.Until("!['none', 'fitting'].includes(window.clackbeat.whatIf().phase)", 150);
        Assert.Equal("ready", await window.Read<string>("window.clackbeat.whatIf().phase"));

        // The live picture went on meanwhile, and who pressed the button stands at the first slider.
        Assert.True(await window.Read<double>("window.clackbeat.stats.frames") > seen + 5);
        Assert.Equal("twin-stroke", await window.Read<string>("document.activeElement.id"));
        for (int i = 0; i < 3; i++)
        {
            await window.Page.Keyboard.PressAsync("ArrowLeft");
        }

        await window.Until("window.clackbeat.whatIf().told && " + Answered);
        Assert.Contains("\u221215\u00a0%", await window.Page.Locator("#twin-stroke").GetAttributeAsync("aria-valuetext"), StringComparison.Ordinal);
        Assert.Equal(3, await window.Page.Locator(".twin-table thead tr > *").CountAsync());

        // A shorter stroke beats faster (J. Krol 1951).
        Assert.True(await window.Read<bool>(
            "(cells => parseFloat(cells[1].innerText) > parseFloat(cells[0].innerText))(document.querySelectorAll('.twin-table tbody tr:first-child td'))"));
        await window.Page.Locator("#twin-air").FocusAsync();
        await window.Page.Keyboard.PressAsync("Home");
        await window.Until("window.clackbeat.whatIf().told?.then.rows.some(r => r.id === 'swing') && " + Answered);
        await window.Page.SetViewportSizeAsync(360, 740);
        Assert.True(await window.Read<bool>("document.querySelector('#what-if').scrollWidth <= document.querySelector('#what-if').clientWidth"));
        Assert.Empty(await window.Violations());
        await Pictures(window);
        await window.Page.Locator("#twin-reset").ClickAsync();
        await window.Until("window.clackbeat.whatIf().told === null && " + Answered);

        IPage slow = await window.Page.Context.RunAndWaitForPageAsync(() => window.Page.Locator(".twin-slow").ClickAsync());
        await slow.WaitForSelectorAsync("#figures dd");
        await Keys(slow);
        Assert.Empty(window.Errors);
        Assert.All(window.Requests, r => Assert.StartsWith($"http://127.0.0.1:{server.Port}/", r, StringComparison.Ordinal));
    }

    private static async Task Pictures(Window window)
    {
        if (!Window.SavesPictures)
        {
            return;
        }

        foreach (string part in new[] { "#twin-stroke", ".twin-says", ".twin-slow" })
        {
            await window.Page.Locator(part).ScrollIntoViewIfNeededAsync();
            await window.Picture("what-if-phone" + part.Replace('#', '-').Replace('.', '-'));
        }

        await window.Page.SetViewportSizeAsync(1280, 900);
        await window.Page.Locator("#theme").ClickAsync();
        await window.Page.Locator("#language").ClickAsync();
        await window.Page.Locator("#units").ClickAsync();
        await window.Read<bool>("(document.getElementById('what-if').scrollIntoView(), true)");
        await window.Picture("what-if-desktop");
        await window.Read<bool>("(localStorage.clear(), true)");
        for (int language = 1; language < 4; language++)
        {
            await window.Page.Locator("#language").ClickAsync();
        }
    }

    // Play and stop, steps of one and of ten, from wherever the focus is.
    private static async Task Keys(IPage slow)
    {
        Task<double> Place() => slow.EvaluateAsync<double>("Number(document.getElementById('at').value)");
        await slow.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.Reduce });
        await slow.ReloadAsync();
        Assert.Equal(0, await Place());
        Assert.Equal("Play", await slow.Locator("#go").InnerTextAsync());
        await slow.Keyboard.PressAsync("ArrowRight");
        await slow.Keyboard.PressAsync("Shift+ArrowRight");
        Assert.Equal(11, await Place());
        await slow.Locator("#on").ClickAsync();
        await slow.Keyboard.PressAsync("ArrowLeft");
        await slow.Keyboard.PressAsync("ArrowLeft");
        Assert.Equal(10, await Place());
        await slow.Locator("#at").FocusAsync();
        await slow.Keyboard.PressAsync("Shift+ArrowLeft");
        Assert.Equal(0, await Place());

        // Asked to, it plays with reduced motion too.
        await slow.Keyboard.PressAsync("Space");
        await slow.WaitForFunctionAsync("() => Number(document.getElementById('at').value) > 3");
        Assert.Equal("Stop", await slow.Locator("#go").InnerTextAsync());
        await slow.Keyboard.PressAsync("Space");
        await slow.Keyboard.PressAsync("Home");
        Assert.Equal(0, await Place());
    }
}
