using System.Net;
using Clackbeat.Words;
using Microsoft.AspNetCore.Http;

namespace Clackbeat.Watch.Web;

/// <summary>
/// Looks at each request before anything else does. A page elsewhere may not speak to this one through the keeper's
/// browser, neither by a foreign name for this address (DNS rebinding) nor from a foreign page (cross-site requests).
/// </summary>
/// <param name="sessions">Devices that were let in; null where the page is open on this computer only.</param>
/// <param name="ownAddresses">Addresses of this computer by which the page may be called.</param>
internal sealed class Doorkeeper(Sessions? sessions, IReadOnlySet<IPAddress> ownAddresses)
{
    // The page for the code, what it needs, and the way to hand the code in.
    private static readonly HashSet<string> Public = new(StringComparer.Ordinal)
    {
        "/", "/session", "/page/join.js", "/page/watch.css", "/page/words.js", "/page/words.json", "/page/prefs.js",
        "/page/NotoSans-Regular.latin.woff2", "/page/NotoSans-Bold.latin.woff2",
    };

    /// <summary>Further names of this page, for readers elsewhere.</summary>
    public Func<string, bool> IsNamed { get; init; } = _ => false;

    /// <summary>A link elsewhere may lead here: whoever follows it has to have an account.</summary>
    public bool MayBeLinked { get; init; }

    /// <summary>Lets a request through or answers it.</summary>
    public Task Look(HttpContext context, RequestDelegate next)
    {
        SetHeaders(context);
        return Refusal(context) is not { } refusal ? next(context) : Refuse(context, refusal.Status, refusal.Words);
    }

    /// <summary>Whether the device may see and do everything.</summary>
    public bool IsLetIn(HttpContext context) => sessions is null || sessions.Knows(context);

    private (int Status, string Words)? Refusal(HttpContext context)
    {
        HttpRequest request = context.Request;
        if (!IsOwnName(request.Host))
        {
            return (StatusCodes.Status421MisdirectedRequest, Phrases.Say("page-server.other-name"));
        }

        if (IsForeign(request))
        {
            return (StatusCodes.Status403Forbidden, Phrases.Say("page-server.other-page"));
        }

        return IsLetIn(context) || Public.Contains(request.Path.Value ?? "")
            ? null
            : (StatusCodes.Status401Unauthorized, Phrases.Say("page-server.code"));
    }

    private bool IsOwnName(HostString host) =>
        string.Equals(host.Host, "localhost", StringComparison.OrdinalIgnoreCase)
        || IsNamed(host.Host)
        || (IPAddress.TryParse(host.Host.Trim('[', ']'), out IPAddress? address) && ownAddresses.Contains(address));

    /// <summary>
    /// Browsers say where a request comes from (Fetch standard: Origin with each POST; W3C Fetch Metadata). Only the
    /// page itself may change anything; reading may also be asked for by typing the address.
    /// </summary>
    private bool IsForeign(HttpRequest request)
    {
        if (HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method))
        {
            string site = request.Headers["Sec-Fetch-Site"].ToString();
            bool isFollowed = MayBeLinked && request.Headers["Sec-Fetch-Mode"] == "navigate" && request.Headers["Sec-Fetch-Dest"] == "document";
            return site is not ("" or "same-origin" or "none") && !isFollowed;
        }

        return request.Headers.Origin.ToString() != $"{request.Scheme}://{request.Host}";
    }

    private static void SetHeaders(HttpContext context)
    {
        IHeaderDictionary headers = context.Response.Headers;
        headers.ContentSecurityPolicy =
            "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; connect-src 'self'; img-src 'self'; "
            + "base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()";
        headers.CacheControl = "no-store";
        if (context.Request.IsHttps)
        {
            headers.StrictTransportSecurity = "max-age=31536000";
        }
    }

    private static Task Refuse(HttpContext context, int status, string words)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(words);
    }
}
