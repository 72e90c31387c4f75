using System.Text.Json.Serialization;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Model;
using Clackbeat.Watch.Checks;
using Clackbeat.Watch.Stream;
using Clackbeat.Watch.Wording;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Web;

/// <summary>The tests by hand, led from the page: judge the newest minute, begin a test, next step, break off, and where it stands.</summary>
internal sealed class CheckFeature(CheckDesk desk) : IPageFeature
{
    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/check", Answer);
        routes.MapPost("/check/judge", () => Done(() => _ = desk.Judge()));
        routes.MapPost("/check/begin", (BeginRequest request) => Done(() => _ = desk.Begin(request.Test)));
        routes.MapPost("/check/next", (NextRequest request) => Done(() => desk.Next(request.Bucket)));
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
                state.Phase, Math.Ceiling(state.LeftS), state.Test is { } test ? TestMessage.Of(test) : null,
                state.Sequence?.Causes.Select(c => new CauseMessage(c.Condition, c.Probability)), state.Sequence?.IsDecided ?? false,
                state.Reading is { } read ? PageWords.Said(read.Said) : null,
                state.Reading is { } found ? PageWords.Said(found.Evidence) : null,
                state.Lack is { } lack ? PageWords.Said(lack) : null,
                HandTest.All.Select(TestMessage.Of)),
            Wire.Json);
    }

    private sealed record BeginRequest([property: JsonPropertyName("test")] string? Test);

    private sealed record NextRequest([property: JsonPropertyName("litres")] double? Litres, [property: JsonPropertyName("seconds")] double? Seconds)
    {
        public BucketTest? Bucket => Litres is > 0 && Seconds is > 0
            ? new BucketTest { Outlet = BucketOutlet.Delivery, VolumeM3 = Litres.Value / 1000, TimeS = Seconds.Value, OfThisRecord = true }
            : null;
    }

    private sealed record CheckMessage(
        string Phase, double LeftS, TestMessage? Test, IEnumerable<CauseMessage>? Causes, bool IsDecided, IReadOnlyDictionary<string, string>? Verdict,
        IReadOnlyDictionary<string, IReadOnlyList<string>>? Evidence, IReadOnlyDictionary<string, string>? Lack, IEnumerable<TestMessage> Tests);

    private sealed record CauseMessage(string Condition, double Probability);

    private sealed record TestMessage(
        string Code, string First, string Last, IReadOnlyDictionary<string, string> Name, IReadOnlyDictionary<string, string> Steps, IReadOnlyDictionary<string, string> Caution,
        IReadOnlyDictionary<string, string> Meaning)
    {
        public static TestMessage Of(HandTest test) => new(
            test.Code, test.Phases[0].Code, test.Phases[^1].Code, PageWords.Said(test.Name), PageWords.Said(test.Steps), PageWords.Said(test.Caution), PageWords.Said(test.Meaning));
    }
}
