using System.Collections.Concurrent;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Clackbeat.Browser;

/// <summary>A browser window on the live page, with a record of all it asked for and of every error.</summary>
internal sealed class Window : IAsyncDisposable
{
    private static readonly string? Folder = Environment.GetEnvironmentVariable("CLACKBEAT_PICTURES");
    private readonly IBrowserContext _context;

    private Window(IBrowserContext context, IPage page) => (_context, Page) = (context, page);

    /// <summary>Pictures are kept, for people to look at.</summary>
    public static bool SavesPictures => !string.IsNullOrEmpty(Folder);

    public IPage Page { get; }

    /// <summary>Every address that was asked for.</summary>
    public ConcurrentQueue<string> Requests { get; } = new();

    /// <summary>Errors of scripts and of the page's own rules.</summary>
    public ConcurrentQueue<string> Errors { get; } = new();

    public static async Task<Window> In(IBrowserContext context)
    {
        var window = new Window(context, await context.NewPageAsync());
        context.Request += (_, request) => window.Requests.Enqueue(request.Url);
        window.Page.PageError += (_, error) => window.Errors.Enqueue(error);
        window.Page.Console += (_, message) =>
        {
            if (message.Type == "error")
            {
                window.Errors.Enqueue(message.Text);
            }
        };
        return window;
    }

    public Task Go(int port) => Page.GotoAsync($"http://127.0.0.1:{port}/");

    /// <summary>Waits until an expression of the page is true.</summary>
    public Task Until(string expression, double patienceS = 60) => Page.WaitForFunctionAsync(
        $"() => {expression}", null, new() { Timeout = (float)(1000 * patienceS), PollingInterval = 25 });

    public Task<T> Read<T>(string expression) => Page.EvaluateAsync<T>(expression);

    public Task<string> Text(string id) => Page.Locator("#" + id).InnerTextAsync();

    /// <summary>Keeps a picture of the window where CLACKBEAT_PICTURES names a folder for them.</summary>
    public async Task Picture(string name)
    {
        if (SavesPictures)
        {
            await Page.ScreenshotAsync(new() { Path = System.IO.Path.Combine(Folder!, name + ".png") });
        }
    }

    /// <summary>What the accessibility engine finds wrong.</summary>
    public async Task<IReadOnlyList<string>> Violations()
    {
        AxeResult result = await Page.RunAxe();
        return [.. result.Violations.Select(v => $"{v.Id}: {v.Help} ({string.Join(", ", v.Nodes.Select(n => n.Html))})")];
    }

    /// <summary>Bytes that live objects of the page take, after its garbage was collected.</summary>
    public async Task<double> HeapBytes()
    {
        ICDPSession tools = await _context.NewCDPSessionAsync(Page);
        await tools.SendAsync("HeapProfiler.collectGarbage");
        double bytes = await Read<double>("performance.memory.usedJSHeapSize");
        await tools.DetachAsync();
        return bytes;
    }

    /// <summary>Begins to count the processor's time that the page's own thread takes; what it returns tells the seconds so far.</summary>
    public async Task<Func<Task<double>>> CountWork()
    {
        ICDPSession tools = await _context.NewCDPSessionAsync(Page);
        await tools.SendAsync("Performance.enable", new() { ["timeDomain"] = "threadTicks" });
        return async () => (await tools.SendAsync("Performance.getMetrics"))!.Value.GetProperty("metrics").EnumerateArray()
            .First(m => m.GetProperty("name").GetString() == "TaskDuration").GetProperty("value").GetDouble();
    }

    /// <summary>Makes the processor so many times slower for this page.</summary>
    public async Task Throttle(double times)
    {
        ICDPSession tools = await _context.NewCDPSessionAsync(Page);
        await tools.SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = times });
    }

    public ValueTask DisposeAsync() => new(_context.CloseAsync());
}
