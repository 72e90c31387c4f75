using System.Net;
using Clackbeat.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.HttpOverrides;

namespace Clackbeat.Watch.Web;

/// <summary>
/// Takes requests from one reverse proxy only, which speaks TLS with the readers and tells who they are in <c>X-Forwarded-For</c>,
/// <c>X-Forwarded-Proto</c> and the host's name.
/// </summary>
/// <param name="proxy">Address of the proxy.</param>
/// <param name="name">The page's name.</param>
internal sealed class ProxyDoor(IPAddress proxy, string name)
{
    /// <summary>Puts it before all else.</summary>
    public void Use(WebApplication web)
    {
        var forwarded = new ForwardedHeadersOptions
        {
            ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost,
            ForwardLimit = 1,
            AllowedHosts = { name },
        };
        forwarded.KnownIPNetworks.Clear();
        forwarded.KnownProxies.Clear();
        forwarded.KnownProxies.Add(proxy);
        web.Use((context, next) => IsProxy(context.Connection.RemoteIpAddress) ? next(context) : Refuse(context, "account.not-the-proxy"));
        web.UseForwardedHeaders(forwarded);
        web.Use((context, next) => context.Request.IsHttps ? next(context) : Refuse(context, "account.no-tls"));
    }

    private bool IsProxy(IPAddress? address) => address is not null && (address.IsIPv4MappedToIPv6 ? address.MapToIPv4() : address).Equals(proxy);

    private static Task Refuse(HttpContext context, string key)
    {
        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(Catalogue.Current.Say(key));
    }
}
