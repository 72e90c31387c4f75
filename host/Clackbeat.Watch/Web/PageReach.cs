using System.Net;
using Clackbeat.Site;

namespace Clackbeat.Watch.Web;

/// <summary>From where a page can be reached, and how. Without a certificate or a proxy it is this computer alone.</summary>
/// <param name="Port">Port; 0 takes any that is free.</param>
public sealed record PageReach(int Port)
{
    /// <summary>Certificate for TLS; null for none.</summary>
    public ServerCertificate? Certificate { get; init; }

    /// <summary>Address of the reverse proxy that speaks TLS for this page; null for none.</summary>
    public IPAddress? Proxy { get; init; }

    /// <summary>Name by which the page is called from elsewhere; null where the certificate says it.</summary>
    public string? PublicName { get; init; }

    /// <summary>Readers elsewhere reach it over TLS.</summary>
    public bool IsPublic => Certificate is not null || Proxy is not null;

    /// <summary>Where the server listens: to everybody only with a certificate of its own, or for a proxy on another computer.</summary>
    internal IPAddress Address => Certificate is not null || (Proxy is { } proxy && !IPAddress.IsLoopback(proxy)) ? IPAddress.Any : IPAddress.Loopback;

    /// <summary>Whether a host's name is one of this page's.</summary>
    /// <param name="host">The name, as a browser gave it.</param>
    internal bool IsNamed(string host) =>
        string.Equals(host, PublicName, StringComparison.OrdinalIgnoreCase) || Certificate?.Current.MatchesHostname(host, allowWildcards: true) == true;
}
