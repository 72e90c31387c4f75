using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using Microsoft.AspNetCore.Http;

namespace Clackbeat.Watch.Web;

/// <summary>
/// What the reader of a page chose there and sends along with each request: language and units. One watch may have readers of several
/// languages at once, so neither the program's own language nor its site file decides.
/// </summary>
/// <param name="usual">The language of requests that name none, or one that the catalogue lacks.</param>
internal sealed class Reader(Catalogue usual)
{
    /// <summary>The name of the language's code in an address.</summary>
    public const string Language = "language";

    private const string Us = "us";

    private const string Metric = "metric";

    /// <summary>Answers a request in its reader's language.</summary>
    /// <param name="context">The request.</param>
    /// <param name="next">What answers it.</param>
    public async Task Hear(HttpContext context, RequestDelegate next)
    {
        using IDisposable spoken = Catalogue.Use(Catalogue.Find(context.Request.Query[Language].ToString()) ?? usual);
        await next(context);
    }

    /// <summary>The units that an address names.</summary>
    /// <param name="named">What stands in the address; null for nothing.</param>
    /// <param name="usual">What holds where it names none.</param>
    public static Units UnitsOf(string? named, Units usual) => named switch
    {
        Us => Units.Us,
        Metric => Units.Metric,
        _ => usual,
    };
}
