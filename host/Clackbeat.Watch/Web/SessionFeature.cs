using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Web;

/// <summary>Lets a device in that brings the code.</summary>
internal sealed class SessionFeature(OneTimeCode code, Sessions sessions) : IPageFeature
{
    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes) => routes.MapPost("/session", Open);

    private IResult Open(HttpContext context, CodeRequest request)
    {
        switch (code.Try(request.Code))
        {
            case CodeOutcome.Opened:
                sessions.Open(context);
                return Results.NoContent();
            case CodeOutcome.TooMany:
                return Results.StatusCode(StatusCodes.Status429TooManyRequests);
            default:
                return Results.StatusCode(StatusCodes.Status403Forbidden);
        }
    }

    private sealed record CodeRequest([property: JsonPropertyName("code")] string? Code);
}
