using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Clackbeat.Watch.Web;

/// <summary>A web server for a page without scripts, for this computer only: a form that is filled in and answered, a table that is looked at.</summary>
internal static class LocalPage
{
    /// <summary>A page's own policy: only its style sheet, and its forms may go nowhere but here.</summary>
    public const string Policy = "default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self'; base-uri 'none'; "
        + "form-action 'self'; frame-ancestors 'none'";

    private const int LongestAddress = 8192;
    private const int MostConnections = 16;

    /// <summary>Makes the server, with the doorkeeper and the page's files; addresses of its own are to be mapped.</summary>
    /// <param name="port">Port; 0 takes any that is free.</param>
    public static WebApplication Build(int port)
    {
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { Args = [] });
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestLineSize = LongestAddress;
            kestrel.Limits.MaxRequestBodySize = 0;
            kestrel.Limits.MaxConcurrentConnections = MostConnections;
            kestrel.Listen(IPAddress.Loopback, port);
        });
        WebApplication web = builder.Build();
        var doorkeeper = new Doorkeeper(null, new HashSet<IPAddress> { IPAddress.Loopback, IPAddress.IPv6Loopback });
        web.Use((context, next) => doorkeeper.Look(context, next));
        web.MapGet("/page/{name}", PageFiles.Answer);
        return web;
    }

    /// <summary>The port on which a started server listens.</summary>
    public static int PortOf(WebApplication web) =>
        new Uri(web.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port;
}
