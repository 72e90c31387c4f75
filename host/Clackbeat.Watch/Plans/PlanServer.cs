using System.Text;
using Clackbeat.Planning.Plans;
using Clackbeat.Planning.Wishes;
using Clackbeat.Report.Export;
using Clackbeat.Report.Planned;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Web;
using Clackbeat.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace Clackbeat.Watch.Plans;

/// <summary>
/// The plan as a form in a browser on this computer. It runs no script, keeps nothing, and answers nobody else: the live page's doorkeeper
/// stands before it.
/// </summary>
public sealed class PlanServer : IAsyncDisposable
{
    // One at a time: a plan takes a second of both cores.
    private readonly SemaphoreSlim _turn = new(1);
    private readonly Catalogue _words;
    private readonly Units _units;
    private readonly WebApplication _web;

    private PlanServer(int port, Units units, Catalogue words)
    {
        (_units, _words) = (units, words);
        _web = LocalPage.Build(new PageReach(port));
        _web.MapGet("/", (HttpContext context) => Form(context, null));
        _web.MapGet("/plan", (HttpContext context, CancellationToken stop) => Answer(context, stop));
    }

    /// <summary>Port of the page.</summary>
    public int Port => LocalPage.PortOf(_web);

    /// <summary>Begins to serve.</summary>
    /// <param name="port">Port; 0 takes any that is free.</param>
    /// <param name="units">Units that the form begins with.</param>
    /// <param name="words">Language of the page.</param>
    /// <param name="cancellation">Ends the start early.</param>
    /// <exception cref="InputException">The port is taken or may not be used.</exception>
    public static async Task<PlanServer> Start(int port, Units units, Catalogue words, CancellationToken cancellation = default)
    {
        var server = new PlanServer(port, units, words);
        try
        {
            await server._web.StartAsync(cancellation);
            return server;
        }
        catch (IOException)
        {
            await server.DisposeAsync();
            throw new InputException(words.Say("plan-page.port-taken", ("port", port), ("next", port + 1)));
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _web.DisposeAsync();
        _turn.Dispose();
    }

    private async Task<IResult> Answer(HttpContext context, CancellationToken stop)
    {
        Units units = UnitsOf(context);
        await _turn.WaitAsync(stop);
        try
        {
            using IDisposable spoken = Catalogue.Use(_words);
            RamPlan plan = Planner.Of(new WishReader(field => Typed(context, field, units), units).Read());
            return plan.Refusal is { } refusal
                ? Form(context, (Phrases.Say("plan-page.refused"), PlanWords.Say(refusal, units)))
                : Written(context, plan, units);
        }
        catch (WishException slip)
        {
            using IDisposable spoken = Catalogue.Use(_words);
            return Form(context, (Phrases.Say("plan-page.check"), $"{Label(slip.Field)}: {PlanWords.Say(slip.Problem, units)}"));
        }
        finally
        {
            _turn.Release();
        }
    }

    private static IResult Written(HttpContext context, RamPlan plan, Units units)
    {
        string form = context.Request.Query["as"].ToString();
        if (form == "site")
        {
            return Results.File(Encoding.UTF8.GetBytes(plan.Choices[0].SiteText), "text/plain; charset=utf-8", "my-ram.toml");
        }

        bool isPdf = form == "pdf";
        using var page = new MemoryStream();
        PlanReportWriter.Write(page, isPdf ? ReportFormat.Pdf : ReportFormat.Html, plan, units, DateTimeOffset.Now);
        context.Response.Headers.ContentSecurityPolicy = ReportFeature.ReportPolicy;
        return isPdf ? Results.File(page.ToArray(), "application/pdf", "plan.pdf") : Results.Bytes(page.ToArray(), "text/html; charset=utf-8");
    }

    private IResult Form(HttpContext context, (string Heading, string Text)? trouble)
    {
        using IDisposable spoken = Catalogue.Use(_words);
        context.Response.Headers.ContentSecurityPolicy = LocalPage.Policy;
        string page = new PlanForm(field => [.. context.Request.Query[field].OfType<string>()], UnitsOf(context)).Write(trouble);
        return Results.Text(page, "text/html; charset=utf-8", Encoding.UTF8, trouble is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity);
    }

    private Units UnitsOf(HttpContext context) => Reader.UnitsOf(context.Request.Query["units"], _units);

    // People, animals and prices have a field each; a bare number has the unit that its field hints at.
    private static IReadOnlyList<string> Typed(HttpContext context, string field, Units units)
    {
        if (field is WishFields.Use or WishFields.Price)
        {
            string start = $"{field}{PlanForm.Dash}";
            return [.. context.Request.Query
                .Where(q => q.Key.StartsWith(start, StringComparison.Ordinal) && !string.IsNullOrWhiteSpace(q.Value))
                .Select(q => $"{q.Key[start.Length..]}={q.Value}")];
        }

        return [.. context.Request.Query[field].OfType<string>().Select(t => BareUnit.Added(field, t.Trim(), units))];
    }

    private static string Label(string field) => Catalogue.Current.Say(field is WishFields.Use or WishFields.Price
        ? field == WishFields.Use ? "plan-page.needed" : "plan-page.prices"
        : $"plan-page.{field}");
}
