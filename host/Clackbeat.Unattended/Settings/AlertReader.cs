using System.Net.Mail;
using Clackbeat.Season.Alerts;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Unattended.Settings;

/// <summary>Reads the alerts' tables of a log's file.</summary>
internal static class AlertReader
{
    private const int MailSubmission = 587;
    private const int MailTls = 465;
    private const int MailOpen = 25;

    public static AlertSettings Read(ConfigDocument document, string folder)
    {
        var usual = new AlertLimits();
        return new AlertSettings
        {
            Limits = new AlertLimits
            {
                IrregularityLeast = document.Quantity("alerts", "irregularity", QuantityKind.Share, usual.IrregularityLeast, 0.01, 1),
                RatingUse = document.Quantity("alerts", "rating_use", QuantityKind.Share, usual.RatingUse, 0.1, 2),
                EfficiencyDrop = document.Quantity("alerts", "efficiency_drop", QuantityKind.Share, usual.EfficiencyDrop, 0.02, 0.9),
                SupplyLow = document.Quantity("alerts", "supply_low", QuantityKind.Share, usual.SupplyLow, 0.05, 1),
                SilentAfter = TimeSpan.FromSeconds(document.Quantity("alerts", "silent_after", QuantityKind.Duration, usual.SilentAfter.TotalSeconds, 60, 30 * 86_400)),
            },
            Command = Command(document),
            Webhook = Webhook(document, folder),
            Mail = Mail(document, folder),
            Mqtt = Mqtt(document, folder),
        };
    }

    private static CommandSettings? Command(ConfigDocument document)
    {
        IReadOnlyList<string> run = document.Texts("alerts.command", "run");
        if (document.Has("alerts.command") && run is [] or ["", ..])
        {
            document.Refuse("alerts.command", "run", Fact.Of("config.run"));
        }

        return run.Count > 0 ? new CommandSettings(run) : null;
    }

    private static WebhookSettings? Webhook(ConfigDocument document, string folder)
    {
        string? text = document.Text("alerts.webhook", "url");
        var token = Secret.In(document, "alerts.webhook", "token", folder);
        if (!document.Has("alerts.webhook"))
        {
            return null;
        }

        if (Uri.TryCreate(text, UriKind.Absolute, out Uri? url) && url.Scheme is "http" or "https")
        {
            return new WebhookSettings(url, token);
        }

        document.Refuse("alerts.webhook", "url", Fact.Of("config.url"));
        return null;
    }

    private static MailSettings? Mail(ConfigDocument document, string folder)
    {
        const string Table = "alerts.email";
        string? server = document.Text(Table, "server");
        MailSecurity security = document.Choice(
            Table, "security", MailSecurity.StartTls, ("starttls", MailSecurity.StartTls), ("tls", MailSecurity.Tls), ("none", MailSecurity.None));
        int port = document.Integer(
            Table, "port", security switch { MailSecurity.StartTls => MailSubmission, MailSecurity.Tls => MailTls, _ => MailOpen }, 1, 65_535);
        string? from = document.Text(Table, "from");
        IReadOnlyList<string> to = document.Texts(Table, "to");
        string? user = document.Text(Table, "user");
        var password = Secret.In(document, Table, "password", folder);
        if (!document.Has(Table))
        {
            return null;
        }

        if (server is null)
        {
            document.Refuse(Table, "server", Fact.Of("config.mail-server"));
        }

        foreach (string address in to.Prepend(from ?? "").Where(a => !MailAddress.TryCreate(a, out _)))
        {
            document.Refuse(Table, address == from || address.Length == 0 ? "from" : "to", Fact.Of("config.mail-address", ("address", address)));
        }

        if (to.Count == 0)
        {
            document.Refuse(Table, "to", Fact.Of("config.to"));
        }

        BrokerReader.RefuseOpenPassword(document, Table, security == MailSecurity.None, user, password, server);
        return new MailSettings(server ?? "", port, security, from ?? "", to, user, password);
    }

    private static MqttSettings? Mqtt(ConfigDocument document, string folder)
    {
        const string Table = "alerts.mqtt";
        string? server = document.Text(Table, "server");
        bool tls = document.Flag(Table, "tls", false);
        int port = document.Integer(Table, "port", BrokerReader.PortOf(tls), 1, 65_535);
        string topic = document.Text(Table, "topic") ?? "clackbeat";
        string? user = document.Text(Table, "user");
        var password = Secret.In(document, Table, "password", folder);
        if (!document.Has(Table))
        {
            return null;
        }

        if (server is null)
        {
            document.Refuse(Table, "server", Fact.Of("config.broker"));
        }

        BrokerReader.RefuseTopic(document, Table, topic);
        BrokerReader.RefuseOpenPassword(document, Table, !tls, user, password, server);
        return new MqttSettings(server ?? "", port, tls, topic.Trim('/'), user, password);
    }
}
