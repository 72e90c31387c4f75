using Clackbeat.Watch.Stream;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Web;

/// <summary>The stream of events: the whole picture first, then what is new, until the page goes away.</summary>
internal sealed class EventFeature(Publisher publisher, EventHub hub, CancellationToken ending) : IPageFeature
{
    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes) => routes.MapGet("/live", Listen);

    private async Task Listen(HttpContext context)
    {
        if (publisher.Join() is not { } listener)
        {
            context.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
            return;
        }

        using var over = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, ending);
        context.Response.ContentType = "text/event-stream";
        try
        {
            await context.Response.WriteAsync("retry: 500\n\n", over.Token);
            while (await listener.Events.WaitToReadAsync(over.Token))
            {
                while (listener.Events.TryRead(out byte[]? happening))
                {
                    await context.Response.Body.WriteAsync(happening, over.Token);
                }

                await context.Response.Body.FlushAsync(over.Token);
            }
        }
        catch (OperationCanceledException)
        {
            // The page was closed, or the program ends.
        }
        finally
        {
            hub.Remove(listener);
        }
    }
}
