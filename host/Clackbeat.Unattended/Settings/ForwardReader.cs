using Clackbeat.Site.Facts;

namespace Clackbeat.Unattended.Settings;

/// <summary>Reads the table [forward] of a log's file.</summary>
internal static class ForwardReader
{
    private const string Table = "forward";

    public static ForwardSettings? Read(ConfigDocument document, string folder)
    {
        string? to = document.Text(Table, "to");
        string? site = document.Text(Table, "site");
        string topic = (document.Text(Table, "topic") ?? BrokerReader.UsualTopic).Trim('/');
        var secret = Secret.In(document, Table, "secret", folder);
        string? trusted = BrokerReader.Certificates(document, Table, "trusted", folder);
        if (!document.Has(Table))
        {
            return null;
        }

        if (site is null || !SiteName.IsOne(site))
        {
            document.Refuse(Table, "site", Fact.Of("config.site-name"));
        }

        if (secret is null)
        {
            document.Refuse(Table, "secret_env", Fact.Of("config.site-secret"));
        }

        BrokerReader.RefuseTopic(document, Table, topic);
        if (!Uri.TryCreate(to, UriKind.Absolute, out Uri? place) || place.Scheme is not ("https" or "http" or "mqtts" or "mqtt"))
        {
            document.Refuse(Table, "to", Fact.Of("config.forward-to"));
            return null;
        }

        bool isOpen = place.Scheme is "http" or "mqtt";
        if (isOpen && !place.IsLoopback)
        {
            document.Refuse(Table, "to", Fact.Of("config.forward-open"));
        }

        BrokerPlace? broker = place.Scheme.StartsWith("mqtt", StringComparison.Ordinal)
            ? new BrokerPlace(place.Host, place.Port > 0 ? place.Port : BrokerReader.PortOf(!isOpen), !isOpen, topic)
            : null;
        return site is null || secret is null ? null : new ForwardSettings(site, secret, broker is null ? place : null, broker, trusted);
    }
}
