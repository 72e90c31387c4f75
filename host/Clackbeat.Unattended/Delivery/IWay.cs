using Clackbeat.Unattended.Settings;

namespace Clackbeat.Unattended.Delivery;

/// <summary>A way by which alerts reach people.</summary>
public interface IWay
{
    /// <summary>What it is called: command, webhook, email or mqtt.</summary>
    string Name { get; }

    /// <summary>Whether a person reads what comes by it, who rather has one message of several alerts than several messages.</summary>
    bool IsForPeople => false;

    /// <summary>Returns when the message was taken over.</summary>
    /// <exception cref="DeliveryException">It wasn't; worth another try later.</exception>
    Task Send(AlertMessage message, CancellationToken cancellation);
}

/// <summary>A message was not taken over; the words say why.</summary>
public sealed class DeliveryException : Exception
{
    /// <summary>Makes the error.</summary>
    public DeliveryException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }
}

/// <summary>The ways of a log.</summary>
public static class Ways
{
    /// <summary>Every way that is set up.</summary>
    /// <param name="settings">Whom to tell.</param>
    public static IReadOnlyList<IWay> Of(AlertSettings settings) => Of(settings.Channels, "");

    /// <summary>Every way by which others hear of what nobody cared for.</summary>
    /// <param name="settings">Whom to tell.</param>
    public static IReadOnlyList<IWay> Escalating(AlertSettings settings) => settings.Escalation is { } channels ? Of(channels, "escalate-") : [];

    private static IReadOnlyList<IWay> Of(AlertChannels channels, string prefix) =>
    [
        .. new IWay?[]
        {
            channels.Command is { } command ? new CommandWay(command) : null,
            channels.Webhook is { } webhook ? new WebhookWay(webhook) : null,
            channels.Mail is { } mail ? new MailWay(mail) : null,
            channels.Mqtt is { } mqtt ? new MqttWay(mqtt) : null,
        }.OfType<IWay>().Select(way => prefix.Length == 0 ? way : new NamedWay(prefix + way.Name, way)),
    ];

    // Under a name of its own in the book of alerts.
    private sealed class NamedWay(string name, IWay way) : IWay
    {
        public string Name => name;

        public bool IsForPeople => way.IsForPeople;

        public Task Send(AlertMessage message, CancellationToken cancellation) => way.Send(message, cancellation);
    }
}
