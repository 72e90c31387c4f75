using System.Net;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Clackbeat.Watch.Web;

/// <summary>A web server for pages without scripts: forms that are filled in and answered, tables that are looked at.</summary>
internal static class LocalPage
{
    /// <summary>A page's own policy: only its style sheet, and its forms may go nowhere but here.</summary>
    public const string Policy = "default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self'; base-uri 'none'; "
        + "form-action 'self'; frame-ancestors 'none'";

    private const int LongestAddress = 8192;
    private const int LargestForm = 16 * 1024;
    private const int MostConnections = 16;
    private const int MostPublicConnections = 200;

    /// <summary>Makes the server, with the doorkeeper, the reader's language and the page's files; addresses of its own are to be mapped.</summary>
    /// <param name="reach">From where it can be reached.</param>
    /// <param name="services">Adds services; null for none.</param>
    /// <param name="door">Asks who comes, before anything is answered; null for nobody.</param>
    public static WebApplication Build(PageReach reach, Action<IServiceCollection>? services = null, Action<WebApplication>? door = null)
    {
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { Args = [] });
        builder.Logging.ClearProviders();
        builder.WebHost.UseKestrelHttpsConfiguration();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestLineSize = LongestAddress;
            kestrel.Limits.MaxRequestBodySize = door is null ? 0 : LargestForm;
            kestrel.Limits.MaxConcurrentConnections = reach.IsPublic ? MostPublicConnections : MostConnections;
            kestrel.Listen(reach.Address, reach.Port, endpoint =>
            {
                if (reach.Certificate is { } certificate)
                {
                    endpoint.UseHttps(tls => tls.ServerCertificateSelector = (_, _) => certificate.Current);
                }
            });
        });
        services?.Invoke(builder.Services);
        WebApplication web = builder.Build();
        if (reach.Proxy is { } proxy)
        {
            new ProxyDoor(proxy, reach.PublicName ?? "").Use(web);
        }

        var doorkeeper = new Doorkeeper(null, Addresses(reach)) { IsNamed = reach.IsNamed, MayBeLinked = reach.IsPublic };
        web.Use((context, next) => doorkeeper.Look(context, next));

        // The web server's own threads don't inherit the language in which the program was started.
        var reader = new Reader(Catalogue.Current);
        web.Use((context, next) => reader.Hear(context, next));
        web.Use(TellTrouble);
        web.UseRouting();
        door?.Invoke(web);
        RouteHandlerBuilder files = web.MapGet("/page/{name}", PageFiles.Answer);
        if (door is not null)
        {
            files.AllowAnonymous();
        }

        return web;
    }

    /// <summary>The port on which a started server listens.</summary>
    public static int PortOf(WebApplication web) =>
        new Uri(web.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port;

    private static HashSet<IPAddress> Addresses(PageReach reach) =>
        [IPAddress.Loopback, IPAddress.IPv6Loopback, .. reach.Certificate is not null ? WatchServer.LanAddresses() : []];

    private static async Task TellTrouble(HttpContext context, RequestDelegate next)
    {
        try
        {
            await next(context);
        }
        catch (InputException problem)
        {
            await PageShell.Trouble(context, problem.Message, StatusCodes.Status422UnprocessableEntity).ExecuteAsync(context);
        }
        catch (StoreUnreachableException away)
        {
            await PageShell.Trouble(context, away.Message, StatusCodes.Status503ServiceUnavailable).ExecuteAsync(context);
        }
    }
}
