using Clackbeat.Report;
using Clackbeat.Report.Export;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Figures;
using Clackbeat.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Web;

/// <summary>Reports to open from the page: of the last minute, of a recording made here, of the record that is replayed.</summary>
internal sealed class ReportFeature(WatchOptions options, FigureWorker worker, DeskFeature? desk) : IPageFeature
{
    // A report is one file with its styles and drawings inside; nothing in it may run.
    internal const string ReportPolicy = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; base-uri 'none'; "
        + "form-action 'none'; frame-ancestors 'none'; sandbox allow-popups";

    // One at a time: a report costs a second or two of the processor that the live page needs.
    private readonly Lock _turn = new();

    /// <inheritdoc/>
    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/report", (HttpResponse response, string? units, CancellationToken stop) =>
            Write(response, over => LastMinute(Reader.UnitsOf(units, options.Site.Units), over), stop));
        routes.MapGet("/report/{id:int}", (int id, HttpResponse response, string? units, CancellationToken stop) =>
            Write(response, over => OfRecording(id, Reader.UnitsOf(units, options.Site.Units), over), stop));
    }

    private async Task<IResult> Write(HttpResponse response, Func<CancellationToken, byte[]?> make, CancellationToken stop)
    {
        try
        {
            byte[]? report = await Task.Run(() => OneByOne(make, stop), stop);
            if (report is null)
            {
                return Results.Text(Phrases.Say("page-server.no-report"), "text/plain", statusCode: StatusCodes.Status404NotFound);
            }

            response.Headers.ContentSecurityPolicy = ReportPolicy;
            return Results.Bytes(report, "text/html; charset=utf-8");
        }
        catch (InputException problem)
        {
            return Results.Text(problem.Message, "text/plain", statusCode: StatusCodes.Status422UnprocessableEntity);
        }
    }

    private byte[]? OneByOne(Func<CancellationToken, byte[]?> make, CancellationToken stop)
    {
        lock (_turn)
        {
            stop.ThrowIfCancellationRequested();
            return make(stop);
        }
    }

    private byte[]? LastMinute(Units units, CancellationToken stop)
    {
        if (options.ReplayPath is { } path && options.ReportOf is { } write)
        {
            return write(path, units, stop);
        }

        if (worker.Whole() is not { } analysis)
        {
            return null;
        }

        using var page = new MemoryStream();
        ReportWriter.Write(page, ReportFormat.Html, options.Site with { Units = units }, analysis, options.Baseline?.Analysis, DateTimeOffset.Now);
        return page.ToArray();
    }

    private byte[]? OfRecording(int id, Units units, CancellationToken stop) =>
        desk?.Find(id) is { } recording && options.ReportOf is { } write ? write(recording.Path, units, stop) : null;
}
