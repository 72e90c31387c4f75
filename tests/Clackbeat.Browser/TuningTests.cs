using Clackbeat.Tuning.Trials;
using Clackbeat.Watch.Tests;
using Clackbeat.Watch.Tuning;
using Clackbeat.Watch.Web;
using Microsoft.Playwright;

namespace Clackbeat.Browser;

/// <summary>A keeper is led through tuning by the page, from the first question to the sheet. The ram runs faster than time.</summary>
[Collection(BrowserTests.Name)]
public sealed class TuningTests(Chromium chromium) : IDisposable
{
    private const double Speed = 15;

    private readonly string _folder = Directory.CreateTempSubdirectory("clackbeat-tuning-page-").FullName;
    private readonly TurnableRam _ram = new(Rams.Site);

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [SkippableFact(Timeout = 500_000)]
    public async Task A_keeper_is_led_from_the_first_question_to_the_sheet()
    {
        await using WatchServer server = await Serve();
        await using Window window = await chromium.Open(Screen.Phone);
        await window.Go(server.Port);
        await Begin(window, "4", "12", "8");
        await window.Picture("tune-first");

        // The ram as it is: nothing has to be turned, so nothing has to be shut off.
        await Act(window, "choose");
        await Phase(window, "settle");
        await Phase(window, "record");
        await Phase(window, "result");
        Assert.Equal(5, await window.Page.Locator("#tuning-body .result dd").CountAsync());
        await window.Picture("tune-result");
        Assert.Empty(await window.Violations());
        await Act(window, "keep");

        await Phase(window, "ready");
        string proposed = await window.Text("tuning-body");
        Assert.Contains("Try next: stroke", proposed, StringComparison.Ordinal);
        await Act(window, "choose");
        await Phase(window, "safe");
        Assert.Contains("gate valve", await window.Text("tuning-body"), StringComparison.OrdinalIgnoreCase);
        await window.Picture("tune-safe");
        Assert.Empty(await window.Violations());
        await Act(window, "is-safe");
        await Phase(window, "turn");
        await window.Picture("tune-turn");
        await Act(window, "is-set");
        double setMm = await window.Read<double>("window.clackbeat.tuning().setting");
        await Phase(window, "settle");
        Assert.Equal(setMm, _ram.StrokeMm, 1e-6);
        await window.Picture("tune-settle");

        // A page that is opened anew in the middle of it meets the trial where it stands, and so does another device.
        await Phase(window, "record");
        await window.Picture("tune-record");
        await window.Page.ReloadAsync();
        await window.Until("['record', 'read', 'result'].includes(window.clackbeat?.tuning()?.phase)");
        Assert.Equal(setMm, await window.Read<double>("window.clackbeat.tuning().setting"));
        await using Window other = await chromium.Open(Screen.Desktop, "dark", "es");
        await other.Go(server.Port);
        await Phase(other, "result");
        await Act(other, "keep");
        await Phase(window, "ready");

        await Trial(window, "10");
        await window.Page.Locator("#tuning").ScrollIntoViewIfNeededAsync();
        await window.Picture("tune-ready");
        await other.Picture("tune-ready-desktop");
        Assert.Empty(await window.Violations());
        Assert.Empty(await other.Violations());
        Assert.Equal(3, await window.Page.Locator(".trials > li").CountAsync());
        Assert.Contains("10 mm: ", (await window.Page.Locator(".tune-plot").GetAttributeAsync("aria-label"))!.Replace('\u00a0', ' '), StringComparison.Ordinal);

        IPage sheet = await window.Page.Context.RunAndWaitForPageAsync(() => window.Page.Locator(".sheets a").First.ClickAsync());
        await sheet.WaitForSelectorAsync("h1");
        Assert.Contains("Tuning sheet", await sheet.InnerTextAsync("body"), StringComparison.OrdinalIgnoreCase);
        IDownload pdf = await window.Page.RunAndWaitForDownloadAsync(() => window.Page.Locator(".sheets a").Last.ClickAsync());
        Assert.EndsWith(".pdf", pdf.SuggestedFilename, StringComparison.Ordinal);

        // What the page did is what the command line finds.
        TuningSession kept = SessionFile.Load(Assert.Single(Directory.GetFiles(_folder, "*.tune")));
        Assert.Equal([8, setMm, 10], kept.Trials.Select(t => t.Setting));
        Assert.All(kept.Trials, t => Assert.True(t.Works, t.Why));
        Assert.Empty(window.Errors);
        Assert.Empty(other.Errors);
    }

    [SkippableFact(Timeout = 180_000)]
    public async Task A_form_that_makes_no_sense_says_where_in_both_languages_and_needs_no_mouse()
    {
        await using WatchServer server = await Serve();
        await using Window window = await chromium.Open(language: "es");
        await window.Go(server.Port);
        await window.Until("!document.getElementById('tune').hidden");
        await window.Page.Locator("#tune").FocusAsync();
        await window.Page.Keyboard.PressAsync("Enter");
        await window.Until("document.activeElement.name === 'knob'");
        await window.Picture("tune-form-desktop");
        Assert.DoesNotMatch(@"\btune\.[a-z]", await window.Text("tuning"));
        await window.Page.Locator("#tune-high").FillAsync("4");
        await window.Page.Locator("#tune-low").FillAsync("12");
        await window.Page.Keyboard.PressAsync("Enter");
        await window.Until("document.activeElement.id === 'tune-high'");
        Assert.Equal("true", await window.Page.Locator("#tune-high").GetAttributeAsync("aria-invalid"));
        Assert.Contains("Lo máximo debe ser más", await window.Text("tune-high-wrong"), StringComparison.Ordinal);
        Assert.Empty(await window.Violations());
        Assert.Empty(Directory.GetFiles(_folder));
        await window.Page.Locator("#tune-low").FillAsync("4,5");
        await window.Page.Locator("#tune-high").FillAsync("12");
        await window.Page.Keyboard.PressAsync("Enter");
        await Phase(window, "ready");
        Assert.Equal(4.5, SessionFile.Load(Assert.Single(Directory.GetFiles(_folder))).Knob.Lowest);
        await window.Until("document.activeElement.className === 'step-title'");
        await window.Page.Keyboard.PressAsync("Tab");
        await window.Page.Keyboard.PressAsync("Enter");
        await Phase(window, "settle");
        await window.Page.Locator("#tuning-hide").ClickAsync();
        Assert.True(await window.Read<bool>("document.getElementById('tuning').hidden && document.activeElement.id === 'tune'"));

        // The browser itself notes each answer that is no success.
        Assert.All(window.Errors, e => Assert.Contains("422", e, StringComparison.Ordinal));
    }

    private Task<WatchServer> Serve() => WatchServer.Start(new WatchOptions
    {
        Site = Rams.Site,
        Source = new PacedSource(_ => _ram.Next(), 30, Speed),
        Port = 0,
        TuningFolder = _folder,
        RamKnob = _ram,
        TuningPace = new TuningPace { TrialS = 33, SettleS = 20, CompareS = 10, FitsTwin = false },
    });

    private static async Task Begin(Window window, string low, string high, string now)
    {
        await window.Page.Locator("#tune").ClickAsync();
        await window.Page.Locator("#tune-low").FillAsync(low);
        await window.Page.Locator("#tune-high").FillAsync(high);
        await window.Page.Locator("#tune-now").FillAsync(now);
        await window.Picture("tune-form");
        Assert.Empty(await window.Violations());
        await window.Page.Locator("#tuning-body button[type=submit]").ClickAsync();
        await Phase(window, "ready");
    }

    // One whole trial at a setting of the keeper's own.
    private static async Task Trial(Window window, string setting)
    {
        await window.Page.Locator("#tuning-body summary").ClickAsync();
        await window.Page.Locator("#tune-other").FillAsync(setting);
        await window.Page.Keyboard.PressAsync("Enter");
        await Phase(window, "safe");
        await Act(window, "is-safe");
        await Act(window, "is-set");
        await Phase(window, "result");
        await Act(window, "keep");
        await Phase(window, "ready");
    }

    private static Task Act(Window window, string act) => window.Page.Locator($"#tuning-body [data-act={act}]").First.ClickAsync();

    // A busy machine may look away while a step goes by.
    private static Task Phase(Window window, string phase) => window.Until(
        "(steps => steps.indexOf(window.clackbeat?.tuning()?.phase) >= steps.indexOf('" + phase + "') && window.clackbeat?.tuning()?.phase)"
        + (phase is "ready" or "closed" ? $"(['{phase}'])" : "(['safe', 'turn', 'settle', 'record', 'read', 'result'])"), 150);
}
