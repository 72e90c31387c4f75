using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using Clackbeat.Site;
using Clackbeat.Watch.Checks;
using Clackbeat.Watch.Figures;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Stream;
using Clackbeat.Watch.Tuning;
using Clackbeat.Watch.Twins;
using Clackbeat.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Clackbeat.Watch.Web;

/// <summary>A live page at work: source, figures and web server. Disposing it ends all of them.</summary>
public sealed class WatchServer : IAsyncDisposable
{
    private const long LargestRequestBytes = 4096;

    private readonly CancellationTokenSource _stop;
    private readonly WebApplication _web;
    private readonly OneTimeCode? _code;
    private readonly TwinDesk _twin;
    private readonly List<Thread> _threads = [];

    private WatchServer(CancellationTokenSource stop, WebApplication web, OneTimeCode? code, TwinDesk twin, Task source)
    {
        (_stop, _web, _code, _twin, Source) = (stop, web, code, twin, source);
        Port = new Uri(web.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port;
    }

    /// <summary>Port of the page.</summary>
    public int Port { get; }

    /// <summary>Ends with the source; faulted where it can't be used at all.</summary>
    public Task Source { get; }

    /// <summary>Leads through the tests by hand; null where none can be made.</summary>
    public CheckDesk? Check { get; private init; }

    /// <summary>What the pages are told of.</summary>
    internal LivePipeline Pipeline { get; private init; } = null!;

    internal EventHub Hub { get; private init; } = null!;

    internal FigureWorker Worker { get; private init; } = null!;

    /// <summary>Addresses of this computer in local networks; none without a network.</summary>
    public static IReadOnlyList<IPAddress> LanAddresses() =>
    [
        .. NetworkInterface.GetAllNetworkInterfaces()
            .Where(n => n.OperationalStatus == OperationalStatus.Up && n.NetworkInterfaceType != NetworkInterfaceType.Loopback)
            .SelectMany(n => n.GetIPProperties().UnicastAddresses)
            .Select(a => a.Address)
            .Where(a => a.AddressFamily == AddressFamily.InterNetwork),
    ];

    /// <summary>Begins to watch and to serve.</summary>
    /// <exception cref="InputException">The port is taken or may not be used.</exception>
    public static async Task<WatchServer> Start(WatchOptions options, CancellationToken cancellation = default)
    {
        var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        var pipeline = new LivePipeline(options.Site, TimeProvider.System) { Told = options.Told };
        var worker = new FigureWorker(pipeline, options.Baseline);
        var hub = new EventHub();
        var twin = new TwinDesk(options.Site, worker.Whole, stop.Token);
        (TuningDesk Desk, TrialWatch Watch)? tuning = Tuning(options, pipeline);
        var publisher = new Publisher(pipeline, worker, options.Desk, tuning, hub, options.Source, options.Baseline, options.SaveBaseline is not null, options.Checks is not null);
        CheckDesk? check = options.Checks is { } book ? new CheckDesk(options.Site, options.Desk, book, worker.Whole, options.RamHands) : null;
        OneTimeCode? code = null;
        WebApplication? web = null;
        try
        {
            code = options.IsOpenToLan ? new OneTimeCode(options.NewCode ?? (_ => { })) : null;
            if (check is not null)
            {
                pipeline.Sampled = check.Take;
            }

            List<IPageFeature> features = [new EventFeature(publisher, hub, stop.Token), new TwinFeature(twin), .. tuning is { } t ? [new TuningFeature(t.Desk)] : Array.Empty<IPageFeature>(), .. check is null ? [] : (IPageFeature[])[new CheckFeature(check)]];
            web = Build(options, code, worker, publisher, features, pipeline);
            await web.StartAsync(cancellation);
        }
        catch (IOException taken)
        {
            code?.Dispose();
            stop.Dispose();
            await (web?.DisposeAsync() ?? ValueTask.CompletedTask);
            throw InputException.Of("option.http-taken", ("port", options.Port), ("why", taken.Message.TrimEnd('.')), ("next", options.Port + 1));
        }

        var server = new WatchServer(stop, web, code, twin, Task.Factory.StartNew(
            () => RunSource(options.Source, pipeline, stop.Token), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default))
        {
            Check = check,
            Pipeline = pipeline,
            Hub = hub,
            Worker = worker,
        };
        server.Begin("page events", ThreadPriority.Normal, () => publisher.Run(stop.Token));
        if (tuning is { } trials)
        {
            server.Begin("page trials", ThreadPriority.BelowNormal, () => trials.Watch.Run(stop.Token));
        }

        server.Begin("page figures", ThreadPriority.BelowNormal, () => worker.Run(stop.Token));
        return server;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _web.StopAsync(new CancellationToken(canceled: false));
        _threads.ForEach(t => t.Join());
        _twin.Join();
        await Source.ContinueWith(_ => { }, TaskScheduler.Default);
        await _web.DisposeAsync();
        _code?.Dispose();
        _stop.Dispose();
    }

    private static (TuningDesk Desk, TrialWatch Watch)? Tuning(WatchOptions options, LivePipeline pipeline)
    {
        if (options.TuningFolder is not { } folder)
        {
            return null;
        }

        var desk = new TuningDesk(options.Site, new TuningFolder(folder, options.Site.Name, TimeProvider.System), options.RamKnob, pipeline);
        return (desk, new TrialWatch(desk, options.Site, pipeline, options.Desk, options.TuningPace));
    }

    private void Begin(string name, ThreadPriority priority, Action work)
    {
        var thread = new Thread(() => work()) { IsBackground = true, Name = name, Priority = priority };
        _threads.Add(thread);
        thread.Start();
    }

    private static void RunSource(LiveSource source, LivePipeline pipeline, CancellationToken stop)
    {
        try
        {
            source.Run(pipeline, stop);
            stop.ThrowIfCancellationRequested();
            pipeline.Tell(LinkState.Ended, Phrases.Say("watching.record-ended"));
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Asked to stop.
        }
    }

    private static WebApplication Build(
        WatchOptions options, OneTimeCode? code, FigureWorker worker, Publisher publisher, List<IPageFeature> features, LivePipeline pipeline)
    {
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { Args = [] });
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = LargestRequestBytes;
            kestrel.Limits.MaxConcurrentConnections = 2 * EventHub.MostPages;
            kestrel.Listen(options.IsOpenToLan ? IPAddress.Any : IPAddress.Loopback, options.Port);
        });
        WebApplication web = builder.Build();
        Sessions? sessions = code is null ? null : new Sessions();
        var doorkeeper = new Doorkeeper(sessions, OwnAddresses(options.IsOpenToLan));
        web.Use((context, next) => doorkeeper.Look(context, next));

        // The web server's own threads don't inherit the language in which the program was started.
        var reader = new Reader(Catalogue.Current);
        web.Use((context, next) => reader.Hear(context, next));
        web.MapGet("/", (Microsoft.AspNetCore.Http.HttpContext context) =>
            doorkeeper.IsLetIn(context) ? LivePage.Answer(publisher.Whole()) : PageFiles.Answer("join.html"));
        web.MapGet("/page/{name}", PageFiles.Answer);
        DeskFeature? desk = options.Desk is { } own ? new DeskFeature(own, pipeline) : null;
        features.Add(new ReportFeature(options, worker, desk));
        if (options.SaveBaseline is { } save)
        {
            features.Add(new BaselineFeature(worker, publisher, save));
        }

        features.AddRange(desk is null ? [] : [desk]);
        features.AddRange(code is null || sessions is null ? [] : [new SessionFeature(code, sessions)]);
        features.ForEach(f => f.Map(web));
        return web;
    }

    private static HashSet<IPAddress> OwnAddresses(bool withLan) =>
        [IPAddress.Loopback, IPAddress.IPv6Loopback, .. withLan ? LanAddresses() : []];
}
