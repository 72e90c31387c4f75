using Clackbeat.Unattended.Settings;

namespace Clackbeat.Unattended.Delivery;

/// <summary>A way by which alerts reach people.</summary>
public interface IWay
{
    /// <summary>What it is called: command, webhook, email or mqtt.</summary>
    string Name { get; }

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
    public static IReadOnlyList<IWay> Of(AlertSettings settings) =>
    [
        .. new IWay?[]
        {
            settings.Command is { } command ? new CommandWay(command) : null,
            settings.Webhook is { } webhook ? new WebhookWay(webhook) : null,
            settings.Mail is { } mail ? new MailWay(mail) : null,
            settings.Mqtt is { } mqtt ? new MqttWay(mqtt) : null,
        }.OfType<IWay>(),
    ];
}
