using System.Net;

namespace Clackbeat.Unattended.Settings;

/// <summary>What takes bursts of far computers into a store.</summary>
/// <param name="Store">The season store.</param>
/// <param name="Web">Where it listens for HTTPS; null for not.</param>
/// <param name="Broker">The broker from which it takes; null for none.</param>
/// <param name="Sites">Who may send what, by name.</param>
public sealed record IntakeSettings(string Store, IntakeWeb? Web, IntakeBroker? Broker, IReadOnlyDictionary<string, IntakeSite> Sites);

/// <summary>Where to listen.</summary>
/// <param name="Address">Address of this computer, when there is a certificate.</param>
/// <param name="Port">Port; 0 takes any that is free.</param>
/// <param name="Certificate">The server's certificates (PEM); null to serve this computer only.</param>
/// <param name="Key">Its key (PEM); null where it is in the same file.</param>
public sealed record IntakeWeb(IPAddress Address, int Port, string? Certificate, string? Key);

/// <summary>A broker to take from.</summary>
/// <param name="Place">Where it is.</param>
/// <param name="ClientId">Name by which the broker knows this program again.</param>
/// <param name="User">Account; null for none.</param>
/// <param name="Password">Its password.</param>
/// <param name="Trusted">Certificates to trust (PEM); null for those of the system.</param>
public sealed record IntakeBroker(BrokerPlace Place, string ClientId, string? User, Secret? Password, string? Trusted);

/// <summary>A sender.</summary>
/// <param name="Name">Its name.</param>
/// <param name="SecretHash">What is kept of its secret; empty for one that comes by a broker only.</param>
/// <param name="Rams">Rams of which it may send; "*" stands for any.</param>
public sealed record IntakeSite(string Name, string SecretHash, IReadOnlyList<string> Rams)
{
    /// <summary>Whether it may send bursts of a ram.</summary>
    /// <param name="ram">Name of the ram.</param>
    public bool May(string ram) => Rams.Contains(ram, StringComparer.Ordinal) || Rams.Contains("*", StringComparer.Ordinal);
}
