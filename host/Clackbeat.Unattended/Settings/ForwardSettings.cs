namespace Clackbeat.Unattended.Settings;

/// <summary>Where a log's bursts are also to go.</summary>
/// <param name="Site">Name under which the receiver knows this computer.</param>
/// <param name="Secret">Its secret there.</param>
/// <param name="Web">A receiver's address; null for a broker.</param>
/// <param name="Broker">A broker between; null for a web address.</param>
/// <param name="Trusted">Certificates that the receiver's may be or be vouched for by (PEM); null for those that the system trusts.</param>
public sealed record ForwardSettings(string Site, Secret Secret, Uri? Web, BrokerPlace? Broker, string? Trusted);

/// <summary>A broker between senders and receiver.</summary>
/// <param name="Server">Its name.</param>
/// <param name="Port">Its port.</param>
/// <param name="Tls">Encrypted.</param>
/// <param name="Topic">Start of the topics; the site's name follows.</param>
public sealed record BrokerPlace(string Server, int Port, bool Tls, string Topic);
