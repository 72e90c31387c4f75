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
        AlertChannels escalation = Channels(document, "escalate", folder);
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
            Channels = Channels(document, "alerts", folder),
            Group = TimeSpan.FromSeconds(document.Quantity("alerts", "group", QuantityKind.Duration, 0, 0, 86_400)),
            Quiet = Quiet(document),
            Urgent = Urgent(document),
            EscalateAfter = EscalateAfter(document, escalation),
            Escalation = escalation == new AlertChannels() ? null : escalation,
        };
    }

    private static AlertChannels Channels(ConfigDocument document, string table, string folder) => new()
    {
        Command = Command(document, $"{table}.command"),
        Webhook = Webhook(document, $"{table}.webhook", folder),
        Mail = Mail(document, $"{table}.email", folder),
        Mqtt = Mqtt(document, $"{table}.mqtt", folder),
    };

    private static QuietHours? Quiet(ConfigDocument document)
    {
        TimeZoneInfo? zone = TimeZoneInfo.Local;
        if (document.Text("alerts", "zone") is { } name && !TimeZoneInfo.TryFindSystemTimeZoneById(name, out zone))
        {
            document.Refuse("alerts", "zone", Fact.Of("config.zone", ("text", name)));
        }

        if (document.Text("alerts", "quiet") is not { } text || zone is null)
        {
            return null;
        }

        if (!QuietHours.TryParse(text, zone, out QuietHours? hours))
        {
            document.Refuse("alerts", "quiet", Fact.Of("config.quiet", ("text", text)));
        }

        return hours;
    }

    private static IReadOnlyList<AlertKind> Urgent(ConfigDocument document)
    {
        IReadOnlyList<string> codes = document.Texts("alerts", "urgent");
        Dictionary<string, AlertKind> kinds = Enum.GetValues<AlertKind>().ToDictionary(k => k.Code());
        foreach (string strange in codes.Where(c => !kinds.ContainsKey(c)))
        {
            document.Refuse("alerts", "urgent", Fact.Of("value.choice", ("text", strange), ("choices", string.Join(", ", kinds.Keys.Select(k => $"\"{k}\"")))));
        }

        return codes.Count == 0 ? new AlertSettings().Urgent : [.. codes.Where(kinds.ContainsKey).Select(c => kinds[c])];
    }

    private static TimeSpan? EscalateAfter(ConfigDocument document, AlertChannels escalation)
    {
        double afterS = document.Quantity("escalate", "after", QuantityKind.Duration, 0, 60, 30 * 86_400);
        bool hasChannel = escalation != new AlertChannels();
        if (afterS > 0 != hasChannel)
        {
            document.Refuse("escalate", "after", Fact.Of("config.escalate"));
        }

        return afterS > 0 ? TimeSpan.FromSeconds(afterS) : null;
    }

    private static CommandSettings? Command(ConfigDocument document, string table)
    {
        IReadOnlyList<string> run = document.Texts(table, "run");
        if (document.Has(table) && run is [] or ["", ..])
        {
            document.Refuse(table, "run", Fact.Of("config.run"));
        }

        return run.Count > 0 ? new CommandSettings(run) : null;
    }

    private static WebhookSettings? Webhook(ConfigDocument document, string table, string folder)
    {
        string? text = document.Text(table, "url");
        var token = Secret.In(document, table, "token", folder);
        if (!document.Has(table))
        {
            return null;
        }

        if (Uri.TryCreate(text, UriKind.Absolute, out Uri? url) && url.Scheme is "http" or "https")
        {
            return new WebhookSettings(url, token);
        }

        document.Refuse(table, "url", Fact.Of("config.url"));
        return null;
    }

    private static MailSettings? Mail(ConfigDocument document, string table, string folder)
    {
        string? server = document.Text(table, "server");
        MailSecurity security = document.Choice(
            table, "security", MailSecurity.StartTls, ("starttls", MailSecurity.StartTls), ("tls", MailSecurity.Tls), ("none", MailSecurity.None));
        int port = document.Integer(
            table, "port", security switch { MailSecurity.StartTls => MailSubmission, MailSecurity.Tls => MailTls, _ => MailOpen }, 1, 65_535);
        string? from = document.Text(table, "from");
        IReadOnlyList<string> to = document.Texts(table, "to");
        string? user = document.Text(table, "user");
        var password = Secret.In(document, table, "password", folder);
        if (!document.Has(table))
        {
            return null;
        }

        if (server is null)
        {
            document.Refuse(table, "server", Fact.Of("config.mail-server"));
        }

        foreach (string address in to.Prepend(from ?? "").Where(a => !MailAddress.TryCreate(a, out _)))
        {
            document.Refuse(table, address == from || address.Length == 0 ? "from" : "to", Fact.Of("config.mail-address", ("address", address)));
        }

        if (to.Count == 0)
        {
            document.Refuse(table, "to", Fact.Of("config.to"));
        }

        BrokerReader.RefuseOpenPassword(document, table, security == MailSecurity.None, user, password, server);
        return new MailSettings(server ?? "", port, security, from ?? "", to, user, password);
    }

    private static MqttSettings? Mqtt(ConfigDocument document, string table, string folder)
    {
        string? server = document.Text(table, "server");
        bool tls = document.Flag(table, "tls", false);
        int port = document.Integer(table, "port", BrokerReader.PortOf(tls), 1, 65_535);
        string topic = document.Text(table, "topic") ?? "clackbeat";
        string? user = document.Text(table, "user");
        var password = Secret.In(document, table, "password", folder);
        if (!document.Has(table))
        {
            return null;
        }

        if (server is null)
        {
            document.Refuse(table, "server", Fact.Of("config.broker"));
        }

        BrokerReader.RefuseTopic(document, table, topic);
        BrokerReader.RefuseOpenPassword(document, table, !tls, user, password, server);
        return new MqttSettings(server ?? "", port, tls, topic.Trim('/'), user, password);
    }
}
