using Clackbeat.Recording.Link;
using Clackbeat.Recording.Reading;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualLogger;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Sources;
using Clackbeat.Watch.Web;
using Microsoft.Playwright;

namespace Clackbeat.Browser;

/// <summary>Recording, marking and reporting with the page's own buttons, and the code at its door.</summary>
[Collection(BrowserTests.Name)]
public sealed class DeskAndDoorTests(Chromium chromium) : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("clackbeat-page-").FullName;
    private readonly List<string> _codes = [];

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [SkippableFact(Timeout = 120_000)]
    public async Task A_keeper_records_marks_saves_and_opens_the_report_from_the_page()
    {
        Chromium.SkipWithoutBrowser();
        using var stop = new CancellationTokenSource();
        RamDesign design = RamDesigner.Design(Rams.Site);
        var ram = new RamSimulation(design.Ram, RamConverter.Continuous(design.Sensor));
        using ServedLogger logger = VirtualLogger.VirtualLogger.Connect(
            RamConverter.Of(ram, new SensorModel { Conversion = SiteSensing.ConversionOf(Rams.Site) }), new VirtualLoggerOptions(), stop.Token);
        using var desk = new RecordingDesk(_folder, [], "test", TimeProvider.System);
        var source = new LoggerSource(new OpenLine(logger.HostStream!), Rams.Site, new(), desk, SourceKind.Virtual);
        await using WatchServer server = await WatchServer.Start(new WatchOptions
        {
            Site = Rams.Site,
            Source = source,
            Desk = desk,
            Port = 0,
            ReportOf = (path, _, _) => System.Text.Encoding.UTF8.GetBytes($"<title>{Path.GetFileName(path)}</title>"),
        });
        await using Window window = await chromium.Open(Screen.Phone);
        await window.Go(server.Port);
        ILocator record = window.Page.Locator("#record");
        await window.Until("!document.getElementById('record').disabled && !document.getElementById('record').hidden");
        await record.ClickAsync();
        await window.Until("document.getElementById('record').classList.contains('on')");
        await window.Page.Locator("#mark").ClickAsync();
        Assert.Empty(await window.Violations());
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Weight changed" }).ClickAsync();
        await window.Until("document.getElementById('said').textContent.includes('Weight changed')");
        await window.Page.WaitForTimeoutAsync(1500);
        await record.ClickAsync();
        await window.Until("document.querySelector('#recordings a')");
        string path = Assert.Single(Directory.GetFiles(_folder));
        Assert.Equal("Weight changed", Assert.Single(RecordingScan.Of(path).Sessions[0].Documents).Text);

        IDownload saved = await window.Page.RunAndWaitForDownloadAsync(() => window.Page.Locator("#recordings a").Nth(1).ClickAsync());
        Assert.Equal(Path.GetFileName(path), saved.SuggestedFilename);
        IPage report = await window.Page.Context.RunAndWaitForPageAsync(() => window.Page.Locator("#recordings a").First.ClickAsync());
        await report.WaitForLoadStateAsync();
        Assert.Equal(Path.GetFileName(path), await report.TitleAsync());
        Assert.Empty(window.Errors);
    }

    [SkippableFact(Timeout = 120_000)]
    public async Task The_report_of_the_last_minute_opens_from_the_page_and_nothing_in_it_runs()
    {
        WatchServer server = await chromium.Healthy();
        await using Window window = await chromium.Open();
        await window.Go(server.Port);
        await window.Until("document.querySelectorAll('#tiles .number').length === 6");
        IPage report = await window.Page.Context.RunAndWaitForPageAsync(() => window.Page.Locator("#report").ClickAsync());
        await report.WaitForSelectorAsync("h1");
        Assert.Contains(Rams.Site.Name, await report.InnerTextAsync("h1"), StringComparison.Ordinal);
        Assert.True(await report.Locator("figure svg").CountAsync() > 3);
    }

    [SkippableFact(Timeout = 120_000)]
    public async Task In_a_local_network_the_code_opens_the_page_once()
    {
        Chromium.SkipWithoutBrowser();
        await using WatchServer server = await WatchServer.Start(new WatchOptions
        {
            Site = Rams.Site,
            Source = PacedSource.Of(Rams.Simulation(1000), 30),
            Port = 0,
            IsOpenToLan = true,
            NewCode = _codes.Add,
        });
        await using Window first = await chromium.Open(Screen.Phone);
        await first.Go(server.Port);
        Assert.Empty(await first.Violations());
        await first.Page.Locator("#code").FillAsync("wrong12");
        await first.Page.Keyboard.PressAsync("Enter");
        await first.Until("document.getElementById('said').textContent.length > 10");
        await first.Page.Locator("#code").FillAsync(_codes[0]);
        await first.Page.Keyboard.PressAsync("Enter");
        await first.Until("window.clackbeat?.stats.frames > 5");

        // The square in the terminal brings the code in the address; used up, it opens nothing.
        await using Window second = await chromium.Open(Screen.Phone);
        await second.Page.GotoAsync($"http://127.0.0.1:{server.Port}/#{_codes[0]}");
        await second.Until("document.getElementById('said').textContent.length > 10");
        await using Window third = await chromium.Open(Screen.Phone);
        await third.Page.GotoAsync($"http://127.0.0.1:{server.Port}/#{_codes[1]}");
        await third.Until("window.clackbeat?.stats.frames > 5");
        Assert.DoesNotContain(_codes[1], third.Page.Url, StringComparison.Ordinal);
    }

    private sealed class OpenLine(System.IO.Stream stream) : ILineOpener
    {
        public string Name => "a line";

        public System.IO.Stream Open() => stream;
    }
}
