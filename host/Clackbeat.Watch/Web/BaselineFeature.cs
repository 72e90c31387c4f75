using System.Text.Json.Serialization;
using Clackbeat.Signal.Analysis;
using Clackbeat.Watch.Figures;
using Clackbeat.Watch.Stream;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Web;

/// <summary>"Make this my baseline": the newest minute becomes the ram when it was well.</summary>
internal sealed class BaselineFeature(FigureWorker worker, Publisher publisher, Func<double[], double[], string> save) : IPageFeature
{
    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes) => routes.MapPost("/baseline", Keep);

    private IResult Keep(KeepRequest request)
    {
        try
        {
            (BaselineLack? lack, string? name) = worker.Adopt(request.IsWell, save);
            if (name is not null)
            {
                publisher.TellBaseline(name);
            }

            return Results.Json(new KeepAnswer(lack?.ToString().ToLowerInvariant(), name), Wire.Json);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return Results.Text(fault.Message, "text/plain", statusCode: StatusCodes.Status507InsufficientStorage);
        }
    }

    private sealed record KeepRequest([property: JsonPropertyName("isWell")] bool IsWell);

    private sealed record KeepAnswer(string? Lack, string? Name);
}
