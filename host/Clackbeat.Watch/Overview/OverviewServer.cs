using System.Text;
using Clackbeat.Report.Html;
using Clackbeat.Season.Overview;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Accounts;
using Clackbeat.Watch.Seasons;
using Clackbeat.Watch.Web;
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

    /// <summary>Who may see the page and who may correct; null for everybody on this computer, who may only look.</summary>
    public AccountFile? Accounts { get; init; }

    /// <summary>Makes one ram's report for a meeting as an HTML page.</summary>
    public required Func<string, Units, byte[]> SeasonOf { get; init; }
}

/// <summary>
/// The pages of all rams and of each in a browser. They run no script. The live page's doorkeeper stands before them, and where there are
/// accounts everybody has to sign in; only keepers may correct.
/// </summary>
public sealed class OverviewServer : IAsyncDisposable
{
    private static readonly string[] Styles = ["pages.css", "overview.css"];

    private readonly OverviewOptions _options;
    private readonly WebApplication _web;
    private readonly SignInLimits? _limits;

    private OverviewServer(OverviewOptions options, PageReach reach)
    {
        _options = options;
        AccountDoor? door = options.Accounts is { } accounts ? new AccountDoor(accounts, reach.IsPublic) : null;
        _web = LocalPage.Build(reach, door is null ? null : door.AddTo, door is null ? null : AccountDoor.Use);
        _web.MapGet("/", Overview);
        new SeasonFeature(options.Store, options.Entries, options.Now, options.Units, options.SeasonOf).Map(_web);
        if (options.Accounts is { } file)
        {
            _limits = new SignInLimits();
            new SignInFeature(file, _limits).Map(_web);
            new KeeperFeature((ICorrectableStore)options.Store, options.Now).Map(_web);
        }
    }

    /// <summary>Port of the page.</summary>
    public int Port => LocalPage.PortOf(_web);

    /// <summary>Begins to serve.</summary>
    /// <param name="options">What the page is made of.</param>
    /// <param name="reach">From where it can be reached.</param>
    /// <param name="cancellation">Ends the start early.</param>
    /// <exception cref="InputException">The port is taken or may not be used, or there are no accounts for readers elsewhere.</exception>
    public static async Task<OverviewServer> Start(OverviewOptions options, PageReach reach, CancellationToken cancellation = default)
    {
        if (reach.IsPublic && (options.Accounts is not { } accounts || accounts.All().Count == 0))
        {
            throw InputException.Of("account.needs-accounts");
        }

        var server = new OverviewServer(options, reach);
        try
        {
            await server._web.StartAsync(cancellation);
            return server;
        }
        catch (IOException)
        {
            await server.DisposeAsync();
            throw InputException.Of("overview.port-taken", ("port", reach.Port), ("next", reach.Port + 1));
        }
    }

    /// <summary>The page as one file that needs no server.</summary>
    /// <param name="visits">The rams.</param>
    /// <param name="atUtc">As of when.</param>
    /// <param name="units">Units.</param>
    public static string File(IReadOnlyList<RamVisit> visits, DateTimeOffset atUtc, Units units) =>
        new OverviewPage(visits, atUtc, new OverviewAsked(units, false, "")).Write(
            Markup.Trusted($"<style>{string.Concat(Styles.Select(s => Encoding.UTF8.GetString(PageFiles.Find(s)!)))}</style>"), null);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _web.DisposeAsync();
        _limits?.Dispose();
    }

    private IResult Overview(HttpContext context)
    {
        DateTimeOffset now = _options.Now();
        IQueryCollection query = context.Request.Query;
        var asked = new OverviewAsked(UnitsOf(context), query["show"] == "visits", query["find"].ToString().Trim());
        string page = new OverviewPage(VisitRules.Judge(_options.Store.Summaries(), _options.Entries, now), now, asked).Write(
            PageShell.Links(Styles), Visitor.Of(context));
        context.Response.Headers.ContentSecurityPolicy = LocalPage.Policy;
        return Results.Text(page, "text/html; charset=utf-8", Encoding.UTF8);
    }

    private Units UnitsOf(HttpContext context) => Reader.UnitsOf(context.Request.Query["units"], _options.Units);
}
