using System.Globalization;
using Clackbeat.Watch.Web;
using Microsoft.Playwright;

namespace Clackbeat.Browser;

/// <summary>One headless Chromium for all tests; where the machine has none, the tests skip and say so.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private static readonly string[] Places =
    [
        Environment.GetEnvironmentVariable("CLACKBEAT_CHROMIUM") ?? "", "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome",
    ];

    // A browser that looks for updates and news of its own would blur what the page itself asks for.
    private static readonly string[] Flags =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
        "--disable-component-update", "--disable-sync",
    ];

    private const double HeadStartS = 30;
    private const float PatienceMs = 120_000;
    private const double CalmFrames = 50;
    private const double CalmLoadPerCore = 2;
    private const string LoadFile = "/proc/loadavg";

    private WatchServer? _healthy;
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public static string? Path => Places.FirstOrDefault(File.Exists);

    public async Task InitializeAsync()
    {
        if (Path is { } path)
        {
            _playwright = await Playwright.CreateAsync();
            _browser = await _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = path, Args = Flags });
        }
    }

    /// <summary>A healthy ram's live page, which tests that only look share.</summary>
    public async Task<WatchServer> Healthy()
    {
        SkipWithoutBrowser();
        return _healthy ??= await Serve(PacedSource.Of(Rams.Simulation(1000), HeadStartS));
    }

    /// <summary>Serves a source on a free port.</summary>
    internal static Task<WatchServer> Serve(PacedSource source)
    {
        SkipWithoutBrowser();
        return WatchServer.Start(new WatchOptions { Site = Rams.Site, Source = source, Port = 0 });
    }

    /// <summary>Skips a test where there is no browser.</summary>
    public static void SkipWithoutBrowser() => Skip.If(
        Path is null, "this machine has no Chromium (Debian: apt-get install chromium), or CLACKBEAT_CHROMIUM doesn't name it");

    /// <summary>
    /// Skips a test that measures time unless it is asked for with CLACKBEAT_LONG=1, since other tests run beside it
    /// otherwise, and where an empty page can't draw freely: what is measured then is the other work of this machine.
    /// </summary>
    public async Task SkipUnlessCalm(double throttle = 1)
    {
        SkipWithoutBrowser();
        Skip.IfNot(Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1", "measures time, alone and when asked to: CLACKBEAT_LONG=1");
        if (File.Exists(LoadFile))
        {
            double load = double.Parse(File.ReadAllText(LoadFile).Split(' ')[0], CultureInfo.InvariantCulture);
            Skip.If(
                load > CalmLoadPerCore * Environment.ProcessorCount,
                FormattableString.Invariant($"this machine is busy: {load:0.0} programs want its {Environment.ProcessorCount} cores"));
        }

        await using Window empty = await Open(drawsFreely: true);
        await empty.Page.GotoAsync("about:blank");
        await empty.Throttle(throttle);
        double frames = await empty.Read<double>(
            """
            () => new Promise(done => {
              let frames = 0;
              const began = performance.now();
              requestAnimationFrame(function count() {
                frames++;
                const ms = performance.now() - began;
                if (ms < 1500) requestAnimationFrame(count); else done(1000 * frames / ms);
              });
            })
            """);
        Skip.If(frames < CalmFrames, FormattableString.Invariant($"this machine is busy: an empty page draws {frames:0} frames a second"));
    }

    public async Task DisposeAsync()
    {
        await (_healthy?.DisposeAsync() ?? ValueTask.CompletedTask);
        await (_browser?.CloseAsync() ?? Task.CompletedTask);
        _playwright?.Dispose();
    }

    /// <summary>Opens a window of its own; skips the test where there is no browser.</summary>
    /// <param name="screen">How large it is.</param>
    /// <param name="theme">Light or dark.</param>
    /// <param name="language">The reader's.</param>
    /// <param name="drawsFreely">
    /// Draws as often as a screen would, for tests that measure that. Without a graphics card that takes a whole core, which
    /// other tests want: elsewhere the page draws twelve times a second.
    /// </param>
    internal async Task<Window> Open(Screen screen = Screen.Desktop, string theme = "light", string language = "en", bool drawsFreely = false)
    {
        SkipWithoutBrowser();
        IBrowserContext context = await _browser!.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = screen == Screen.Phone ? new() { Width = 390, Height = 844 } : new() { Width = 1280, Height = 800 },
            DeviceScaleFactor = screen == Screen.Phone && (drawsFreely || Window.SavesPictures) ? 2 : 1,
            Locale = language == "en" ? "en-US" : language,
            ColorScheme = theme == "dark" ? ColorScheme.Dark : ColorScheme.Light,
        });
        // On a machine that other work keeps busy a click may take its time.
        context.SetDefaultTimeout(PatienceMs);
        if (!drawsFreely)
        {
            await context.AddInitScriptAsync("window.requestAnimationFrame = step => setTimeout(() => step(performance.now()), 80)");
        }

        return await Window.In(context);
    }
}

/// <summary>How large the window is.</summary>
internal enum Screen
{
    /// <summary>A laptop.</summary>
    Desktop,

    /// <summary>A telephone held upright.</summary>
    Phone,
}

/// <summary>All browser tests share the browser and run one after another: some of them measure.</summary>
[CollectionDefinition(Name)]
public sealed class BrowserTests : ICollectionFixture<Chromium>
{
    public const string Name = "browser";
}
