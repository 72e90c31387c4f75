using System.Text.Json.Serialization;
using Clackbeat.Report.Export;
using Clackbeat.Report.TuningSheets;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Stream;
using Clackbeat.Watch.Tuning;
using Clackbeat.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Web;

/// <summary>Tuning from the page: begin or go on, step by step, and the sheet at the end.</summary>
internal sealed class TuningFeature(TuningDesk desk) : IPageFeature
{
    private static readonly Dictionary<string, TuningAct> Acts = Enum.GetValues<TuningAct>()
        .ToDictionary(a => System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(a.ToString()));

    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapPost("/tuning/begin", (SessionForm form) => Answer(desk.Begin(form)));
        routes.MapPost("/tuning/open", (OpenRequest request) => Answer(desk.Open(request.File ?? "")));
        routes.MapPost("/tuning/do", (DoRequest request) => Acts.TryGetValue(request.Act ?? "", out TuningAct act)
            ? Answer(desk.Do(act, request.Revision, request.Setting, request.Trial))
            : Results.BadRequest());
        routes.MapGet("/tuning/sheet.html", (HttpResponse response, string? units) => Sheet(response, ReportFormat.Html, units));
        routes.MapGet("/tuning/sheet.pdf", (HttpResponse response, string? units) => Sheet(response, ReportFormat.Pdf, units));
    }

    private static IResult Answer(TuningProblem? problem) => Results.Json(
        problem ?? new TuningProblem("none"), Wire.Json, statusCode: problem?.Code switch
        {
            null => StatusCodes.Status200OK,
            "stale" => StatusCodes.Status409Conflict,
            "no-file" => StatusCodes.Status404NotFound,
            "disk" => StatusCodes.Status507InsufficientStorage,
            _ => StatusCodes.Status422UnprocessableEntity,
        });

    private IResult Sheet(HttpResponse response, ReportFormat format, string? units)
    {
        if (desk.State is not { Session: { Trials.Count: > 0 } session, File: { } file })
        {
            return Results.Text(Phrases.Say("page-server.no-trial"), "text/plain", statusCode: StatusCodes.Status404NotFound);
        }

        using var page = new MemoryStream();
        TuningSheetWriter.Write(page, format, session, Reader.UnitsOf(units, Units.Metric), DateTimeOffset.Now);
        if (format == ReportFormat.Pdf)
        {
            return Results.File(page.ToArray(), "application/pdf", Path.ChangeExtension(file, ".pdf"));
        }

        response.Headers.ContentSecurityPolicy = ReportFeature.ReportPolicy;
        return Results.Bytes(page.ToArray(), "text/html; charset=utf-8");
    }

    private sealed record OpenRequest([property: JsonPropertyName("file")] string? File);

    private sealed record DoRequest(
        [property: JsonPropertyName("act")] string? Act,
        [property: JsonPropertyName("revision")] int Revision,
        [property: JsonPropertyName("setting")] string? Setting,
        [property: JsonPropertyName("trial")] int? Trial);
}
