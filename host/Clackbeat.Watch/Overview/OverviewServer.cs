using System.Text;
using Clackbeat.Report.Html;
using Clackbeat.Season.Overview;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Seasons;
using Clackbeat.Watch.Web;
using Clackbeat.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace Clackbeat.Watch.Overview;

/// <summary>What the page of all rams is made of.</summary>
public sealed record OverviewOptions
{
    /// <summary>The store.</summary>
    public required IOverviewStore Store { get; init; }

    /// <summary>What a list says of the rams, by name.</summary>
    public IReadOnlyDictionary<string, RamEntry> Entries { get; init; } = new Dictionary<string, RamEntry>();

    /// <summary>Now.</summary>
    public Func<DateTimeOffset> Now { get; init; } = () => DateTimeOffset.UtcNow;

    /// <summary>Units where a reader asked for none.</summary>
    public Units Units { get; init; } = Units.Metric;

    /// <summary>Makes one ram's report for a meeting as an HTML page.</summary>
    public required Func<string, Units, byte[]> SeasonOf { get; init; }
}

/// <summary>
/// The page of all rams in a browser on this computer. It runs no script and changes nothing; the live page's doorkeeper stands before it.
/// </summary>
public sealed class OverviewServer : IAsyncDisposable
{
    private static readonly string[] Styles = ["pages.css", "overview.css"];

    private readonly OverviewOptions _options;
    private readonly WebApplication _web;

    private OverviewServer(OverviewOptions options, int port)
    {
        _options = options;
        _web = LocalPage.Build(port);
        var reader = new Reader(Catalogue.Current);
        _web.Use((context, next) => reader.Hear(context, next));
        _web.MapGet("/", Overview);
        new SeasonFeature(options.Store, options.Now, options.Units, options.SeasonOf).Map(_web);
    }

    /// <summary>Port of the page.</summary>
    public int Port => LocalPage.PortOf(_web);

    /// <summary>Begins to serve.</summary>
    /// <param name="options">What the page is made of.</param>
    /// <param name="port">Port; 0 takes any that is free.</param>
    /// <param name="cancellation">Ends the start early.</param>
    /// <exception cref="InputException">The port is taken or may not be used.</exception>
    public static async Task<OverviewServer> Start(OverviewOptions options, int port, CancellationToken cancellation = default)
    {
        var server = new OverviewServer(options, port);
        try
        {
            await server._web.StartAsync(cancellation);
            return server;
        }
        catch (IOException)
        {
            await server.DisposeAsync();
            throw InputException.Of("overview.port-taken", ("port", port), ("next", port + 1));
        }
    }

    /// <summary>The page as one file that needs no server.</summary>
    /// <param name="visits">The rams.</param>
    /// <param name="atUtc">As of when.</param>
    /// <param name="units">Units.</param>
    public static string File(IReadOnlyList<RamVisit> visits, DateTimeOffset atUtc, Units units) =>
        new OverviewPage(visits, atUtc, new OverviewAsked(units, false, "")).Write(
            Markup.Trusted($"<style>{string.Concat(Styles.Select(s => Encoding.UTF8.GetString(PageFiles.Find(s)!)))}</style>"), isServed: false);

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _web.DisposeAsync();

    private IResult Overview(HttpContext context)
    {
        DateTimeOffset now = _options.Now();
        IQueryCollection query = context.Request.Query;
        var asked = new OverviewAsked(UnitsOf(context), query["show"] == "visits", query["find"].ToString().Trim());
        string page = new OverviewPage(VisitRules.Judge(_options.Store.Summaries(), _options.Entries, now), now, asked).Write(
            PageShell.Links(Styles), isServed: true);
        context.Response.Headers.ContentSecurityPolicy = LocalPage.Policy;
        return Results.Text(page, "text/html; charset=utf-8", Encoding.UTF8);
    }

    private Units UnitsOf(HttpContext context) => Reader.UnitsOf(context.Request.Query["units"], _options.Units);
}
