using Clackbeat.Report.Twins;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Inside;
using Clackbeat.Twin.Model;
using Clackbeat.Watch.Stream;
using Clackbeat.Watch.Twins;
using Clackbeat.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Web;

/// <summary>The twin of the newest minute: fit it, try changes on it, see its beat in slow motion. It turns nothing on the ram.</summary>
internal sealed class TwinFeature(TwinDesk desk) : IPageFeature
{
    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/twin", Answer);
        routes.MapPost("/twin/fit", () =>
        {
            desk.Begin();
            return Answer();
        });
        routes.MapPost("/twin/try", Try);
        routes.MapGet("/twin/slow-motion", SlowMotion);
    }

    private IResult Answer() => Results.Json(TwinMessage.Of(desk), Wire.Json);

    private async Task<IResult> Try(TwinWish wish, CancellationToken stop)
    {
        try
        {
            return await Task.Run(() => desk.Try(wish, stop), stop) is var (live, told, change)
                ? Results.Json(Tried(live, told, change), Wire.Json)
                : Results.Text(Phrases.Say("page-server.no-twin"), "text/plain", statusCode: StatusCodes.Status409Conflict);
        }
        catch (InputException problem)
        {
            return Results.Text(problem.Message, "text/plain", statusCode: StatusCodes.Status422UnprocessableEntity);
        }
    }

    private TriedMessage Tried(LiveTwin live, Prediction told, RamChange change)
    {
        RamSite site = change.Site(desk.Site);
        TwinCurve? Drawn(Cycle? cycle) => cycle is null ? null : TwinCurve.Of(site, live.Twin.Laid(cycle), cycle.IntervalS);
        return new TriedMessage(TwinColumn.Of(site, told), Drawn(told.Beat), change.IsOfAir ? Drawn(live.Questions.BeatWithAir) : null);
    }

    private IResult SlowMotion(HttpResponse response, string? units)
    {
        if (desk.State is not { Phase: TwinPhase.Ready, Live: { } live } || InsideRun.Of(live.Twin) is not { } beat)
        {
            return Results.Text(Phrases.Say("page-server.no-twin"), "text/plain", statusCode: StatusCodes.Status404NotFound);
        }

        using var page = new MemoryStream();
        RamSite site = desk.Site with { Units = Reader.UnitsOf(units, desk.Site.Units) };
        SlowMotionPage.Write(page, site, Phrases.Say("page-server.newest-minute"), beat, live.Twin.Fits);
        response.Headers.ContentSecurityPolicy = SlowMotionPage.Policy + "; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox allow-scripts";
        return Results.Bytes(page.ToArray(), "text/html; charset=utf-8");
    }
}
