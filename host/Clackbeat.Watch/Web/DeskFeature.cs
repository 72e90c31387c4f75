using System.Text.Json.Serialization;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Stream;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Web;

/// <summary>Recording from the page: begin, mark, end, take the file along.</summary>
internal sealed class DeskFeature(RecordingDesk desk, LivePipeline pipeline) : IPageFeature
{
    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapPost("/recording/begin", Begin);
        routes.MapPost("/recording/end", () => Results.Json(desk.End() is { } ended ? RecordingMessage.Of(ended) : null, Wire.Json));
        routes.MapPost("/recording/mark", Mark);
        routes.MapGet("/recording/{id:int}", (int id) => Find(id) is { } recording
            ? Results.File(recording.Path, "application/octet-stream", Path.GetFileName(recording.Path))
            : Results.NotFound());
    }

    /// <summary>A closed recording; null for a number that is none.</summary>
    public DeskRecording? Find(int id) => desk.All.FirstOrDefault(r => r.Id == id && r.IsClosed);

    private IResult Begin()
    {
        try
        {
            return Results.Json(RecordingMessage.Of(desk.Begin()), Wire.Json);
        }
        catch (InvalidOperationException nothing)
        {
            return Results.Text(nothing.Message, "text/plain", statusCode: StatusCodes.Status409Conflict);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return Results.Text(fault.Message, "text/plain", statusCode: StatusCodes.Status507InsufficientStorage);
        }
    }

    private IResult Mark(MarkRequest request)
    {
        string words = new([.. (request.Words ?? "").Where(c => !char.IsControl(c)).Take(RecordingDesk.LongestMark)]);
        if (words.Length == 0)
        {
            return Results.BadRequest();
        }

        // Whatever was changed, the figures of before no longer hold.
        pipeline.Mark(words);
        return Results.Json(new MarkAnswer(desk.Mark(words)), Wire.Json);
    }

    private sealed record MarkRequest([property: JsonPropertyName("words")] string? Words);

    private sealed record MarkAnswer(bool IsKept);
}
