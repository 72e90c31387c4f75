using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Facts;
using Clackbeat.Watch.Checks;
using Clackbeat.Watch.Stream;
using Clackbeat.Watch.Wording;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Web;

/// <summary>The guided test for leaks: begin, next step, break off, and where it stands.</summary>
internal sealed class CheckFeature(CheckDesk desk) : IPageFeature
{
    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/check", Answer);
        routes.MapPost("/check/begin", () => Done(desk.Begin));
        routes.MapPost("/check/next", () => Done(desk.Next));
        routes.MapPost("/check/cancel", () => Done(desk.Cancel));
    }

    private IResult Done(Action act)
    {
        try
        {
            act();
            return Answer();
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return Results.Text(fault.Message, "text/plain", statusCode: StatusCodes.Status507InsufficientStorage);
        }
    }

    private IResult Answer()
    {
        CheckState state = desk.State;
        return Results.Json(
            new CheckMessage(
                state.Phase.ToString().ToLowerInvariant(), Math.Ceiling(state.LeftS),
                state.Result is { } read ? PageWords.Said(new Fact("tests.verdict." + read.Verdict.Code(), [])) : null,
                state.Result is { } found ? PageWords.Said(found.Evidence) : null),
            Wire.Json);
    }

    private sealed record CheckMessage(
        string Phase, double LeftS, IReadOnlyDictionary<string, string>? Verdict, IReadOnlyDictionary<string, IReadOnlyList<string>>? Evidence);
}
