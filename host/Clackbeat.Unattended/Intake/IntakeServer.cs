using System.Net;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Text;
using Clackbeat.Season.Packets;
using Clackbeat.Site;
using Clackbeat.Unattended.Forwarding;
using Clackbeat.Unattended.Settings;
using Clackbeat.Words;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Clackbeat.Unattended.Intake;

/// <summary>Takes packets over HTTPS at one address, POST /v1/packets. Without a certificate it listens on this computer only, for a proxy that has one.</summary>
public sealed class IntakeServer : IAsyncDisposable
{
    private const int MostConnections = 200;
    private readonly WebApplication _web;
    private readonly IntakeDesk _desk;
    private readonly SiteDoor _door;

    private IntakeServer(IntakeWeb settings, IntakeDesk desk, SiteDoor door)
    {
        (_desk, _door) = (desk, door);
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { Args = [] });
        builder.Logging.ClearProviders();
        builder.WebHost.UseKestrelHttpsConfiguration();
        ServerCertificate? certificate = settings.Certificate is { } file ? new ServerCertificate(file, settings.Key, null) : null;
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = PacketLimits.Bytes;
            kestrel.Limits.MaxConcurrentConnections = MostConnections;
            kestrel.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(15);
            kestrel.Listen(certificate is null ? IPAddress.Loopback : settings.Address, settings.Port, listen =>
            {
                if (certificate is not null)
                {
                    listen.UseHttps(tls => tls.ServerCertificateSelector = (_, _) => certificate.Current);
                }
            });
        });
        _web = builder.Build();
        _web.MapPost("/v1/packets", Take);
    }

    /// <summary>Port on which it listens.</summary>
    public int Port => new Uri(_web.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port;

    /// <summary>Begins to listen.</summary>
    /// <param name="settings">Where.</param>
    /// <param name="desk">Takes the packets.</param>
    /// <param name="door">Knows the senders.</param>
    /// <param name="cancellation">Ends the start early.</param>
    /// <exception cref="InputException">The port is taken, or the certificate can't be used.</exception>
    public static async Task<IntakeServer> Start(IntakeWeb settings, IntakeDesk desk, SiteDoor door, CancellationToken cancellation = default)
    {
        var server = new IntakeServer(settings, desk, door);
        try
        {
            await server._web.StartAsync(cancellation).ConfigureAwait(false);
            return server;
        }
        catch (Exception fault) when (fault is IOException or System.Net.Sockets.SocketException)
        {
            await server.DisposeAsync().ConfigureAwait(false);
            throw InputException.Of(fault, "intake.port-taken", ("port", settings.Port));
        }
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _web.DisposeAsync();

    private async Task Take(HttpContext context)
    {
        string address = context.Connection.RemoteIpAddress?.ToString() ?? "";
        (string name, string secret) = Credentials(context.Request);
        IntakeSite? site = _door.LetIn(name, secret, address, out bool mustWait);
        if (site is null)
        {
            if (mustWait)
            {
                context.Response.Headers.RetryAfter = SiteDoor.Wait.TotalSeconds.ToString(System.Globalization.CultureInfo.InvariantCulture);
                await Answer(context, StatusCodes.Status429TooManyRequests, Phrases.Say("intake.wait")).ConfigureAwait(false);
                return;
            }

            _desk.TellOfStranger(address);
            context.Response.Headers.WWWAuthenticate = "Basic realm=\"clackbeat\", charset=\"UTF-8\"";
            await Answer(context, StatusCodes.Status401Unauthorized, Phrases.Say("intake.who")).ConfigureAwait(false);
            return;
        }

        if (await Body(context).ConfigureAwait(false) is not { } packet)
        {
            await Answer(context, StatusCodes.Status413PayloadTooLarge, Phrases.Say("packet.too-large", ("most", PacketLimits.Bytes), ("what", "bytes"))).ConfigureAwait(false);
            return;
        }

        IntakeResult result = _desk.Take(site, packet);
        if (result.Verdict == IntakeVerdict.Stored)
        {
            context.Response.ContentType = "application/json";
            var answer = new PacketAnswer { Packet = Convert.ToHexStringLower(SHA256.HashData(packet)), Stored = result.Stored, Known = result.Known };
            await context.Response.Body.WriteAsync(answer.ToJson(), context.RequestAborted).ConfigureAwait(false);
            return;
        }

        await Answer(context, result.Verdict switch
        {
            IntakeVerdict.Unusable => StatusCodes.Status422UnprocessableEntity,
            IntakeVerdict.Forbidden => StatusCodes.Status403Forbidden,
            _ => StatusCodes.Status503ServiceUnavailable,
        }, result.Words).ConfigureAwait(false);
    }

    private static async Task<byte[]?> Body(HttpContext context)
    {
        try
        {
            using var bytes = new MemoryStream();
            await context.Request.Body.CopyToAsync(bytes, context.RequestAborted).ConfigureAwait(false);
            return bytes.ToArray();
        }
        catch (BadHttpRequestException tooLarge) when (tooLarge.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            return null;
        }
    }

    private static (string Name, string Secret) Credentials(HttpRequest request)
    {
        Span<byte> plain = stackalloc byte[512];
        if (!AuthenticationHeaderValue.TryParse(request.Headers.Authorization.ToString(), out AuthenticationHeaderValue? given)
            || !string.Equals(given.Scheme, "Basic", StringComparison.OrdinalIgnoreCase)
            || !Convert.TryFromBase64String(given.Parameter ?? "", plain, out int count))
        {
            return ("", "");
        }

        string[] parts = Encoding.UTF8.GetString(plain[..count]).Split(':', 2);
        return parts is [var name, var secret] ? (name, secret) : ("", "");
    }

    private static Task Answer(HttpContext context, int status, string words)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/plain; charset=utf-8";
        byte[] text = Encoding.UTF8.GetBytes(words);
        context.Response.ContentLength = text.Length;
        return context.Response.Body.WriteAsync(text, context.RequestAborted).AsTask();
    }
}
