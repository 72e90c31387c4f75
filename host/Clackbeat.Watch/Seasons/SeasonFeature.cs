using System.Globalization;
using System.Text;
using Clackbeat.Report.Export;
using Clackbeat.Report.Upkeep;
using Clackbeat.Season.Overview;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Season.Upkeep;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Upkeep;
using Clackbeat.Watch.Web;
using Clackbeat.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Seasons;

/// <summary>The pages of one ram: its season, the bursts of a day, two things side by side, and the report for a meeting.</summary>
/// <param name="store">The store.</param>
/// <param name="entries">What a list says of the rams, by name.</param>
/// <param name="now">Now.</param>
/// <param name="usual">Units where a reader asked for none.</param>
/// <param name="reportOf">Makes the season's report as an HTML page.</param>
internal sealed class SeasonFeature(
    ISeasonStore store, IReadOnlyDictionary<string, RamEntry> entries, Func<DateTimeOffset> now, Units usual, Func<string, Units, byte[]> reportOf) : IPageFeature
{
    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/season", (HttpContext context) => Answer(context, ask => Page(context, Season(context, ask))));
        routes.MapGet("/bursts", (HttpContext context) => Answer(context, ask => Page(context, Bursts(context, ask))));
        routes.MapGet("/compare", (HttpContext context) => Answer(context, ask => Page(context, new ComparePage(store, ask, Visitor.Of(context)).Write(context.Request.Query))));
        routes.MapGet("/season/report", (HttpContext context) => Answer(context, ask => Report(context, reportOf(ask.Ram, ask.Units))));
        routes.MapGet("/upkeep", (HttpContext context) => Answer(context, ask => Page(
            context, new UpkeepPage(ask, Visitor.Of(context)).Write(UpkeepRules.Judge(store, ask.Ram, Intervals(ask), now(), TimeZoneInfo.Local)))));
        routes.MapGet("/upkeep/sheet", (HttpContext context) => Answer(context, ask => Report(context, Sheet(ask))));
    }

    private IResult Answer(HttpContext context, Func<SeasonAsk, IResult> answer)
    {
        var ask = SeasonAsk.Of(context.Request.Query, usual);
        if (!store.Rams().Contains(ask.Ram))
        {
            return PageShell.Trouble(context, Phrases.Say("overview.no-ram"), StatusCodes.Status404NotFound);
        }

        return answer(ask);
    }

    // A ram that has been silent for longer is shown by what there is of it.
    private string Season(HttpContext context, SeasonAsk ask)
    {
        var told = SeasonTold.Of(store, ask.Ram, ask.Span(now()), TimeZoneInfo.Local);
        if (told is null)
        {
            ask = ask with { Days = 0 };
            told = SeasonTold.Of(store, ask.Ram, TimeSpanUtc.All, TimeZoneInfo.Local) ?? throw InputException.Of("trend.no-figure", ("ram", ask.Ram));
        }

        return new SeasonPage(told, ask, Visitor.Of(context)).Write();
    }

    private string Bursts(HttpContext context, SeasonAsk ask)
    {
        string text = context.Request.Query["day"].ToString();
        if (!DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) || day.Year is < 1971 or > 9000)
        {
            throw InputException.Of("season-page.no-day", ("text", text));
        }

        SeasonBurst[] bursts = [.. store.Bursts(ask.Ram, CalendarDays.Span(day, day, TimeZoneInfo.Local))];
        return new BurstsPage(ask, Visitor.Of(context), day, context.Request.Query[ComparePage.FirstBurst].ToString()).Write(bursts);
    }

    private IReadOnlyDictionary<string, UpkeepInterval> Intervals(SeasonAsk ask) =>
        entries.GetValueOrDefault(ask.Ram)?.Intervals ?? new Dictionary<string, UpkeepInterval>();

    private byte[] Sheet(SeasonAsk ask)
    {
        using var sheet = new MemoryStream();
        UpkeepSheetWriter.Write(sheet, ReportFormat.Html, UpkeepSheets.Of(store, ask.Ram, Intervals(ask), now(), ask.Units), now());
        return sheet.ToArray();
    }

    private static IResult Report(HttpContext context, byte[] report)
    {
        context.Response.Headers.ContentSecurityPolicy = ReportFeature.ReportPolicy;
        return Results.Bytes(report, "text/html; charset=utf-8");
    }

    private static IResult Page(HttpContext context, string page)
    {
        context.Response.Headers.ContentSecurityPolicy = LocalPage.Policy;
        return Results.Text(page, "text/html; charset=utf-8", Encoding.UTF8);
    }
}
