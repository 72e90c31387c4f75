using System.Net.Sockets;
using Clackbeat.Site;
using Clackbeat.Unattended.Settings;
using Clackbeat.Words;
using MQTTnet;
using MQTTnet.Exceptions;
using MQTTnet.Protocol;

namespace Clackbeat.Unattended.Delivery;

/// <summary>
/// Publishes the message as JSON under TOPIC/ram/kind, at least once (QoS 1) and retained: who subscribes later sees the last word
/// on each kind of alert.
/// </summary>
public sealed class MqttWay(MqttSettings settings) : IWay
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    /// <inheritdoc/>
    public string Name => "mqtt";

    /// <inheritdoc/>
    public async Task Send(AlertMessage message, CancellationToken cancellation)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(Patience);
        try
        {
            using IMqttClient client = new MqttClientFactory().CreateMqttClient();
            await client.ConnectAsync(Options(), limit.Token).ConfigureAwait(false);
            MqttClientPublishResult result = await client.PublishAsync(
                new MqttApplicationMessageBuilder()
                    .WithTopic($"{settings.Topic}/{FolderName.Of(message.Ram)}/{message.Kind}")
                    .WithPayload(message.ToJson())
                    .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce)
                    .WithRetainFlag(message.Event != "test")
                    .Build(),
                limit.Token).ConfigureAwait(false);
            await client.DisconnectAsync(new MqttClientDisconnectOptions(), limit.Token).ConfigureAwait(false);
            if (!result.IsSuccess)
            {
                throw new DeliveryException(Phrases.Say("delivery.not-taken", ("server", settings.Server), ("why", $"{result.ReasonCode} {result.ReasonString}".Trim())).Trim());
            }
        }
        catch (Exception fault) when (fault is MqttCommunicationException or MqttProtocolViolationException or SocketException or OperationCanceledException
            or InvalidOperationException or InputException)
        {
            throw new DeliveryException(
                fault is OperationCanceledException && !cancellation.IsCancellationRequested ? Phrases.Say("delivery.no-answer", ("server", settings.Server)) : $"{settings.Server}: {fault.Message}", fault);
        }
    }

    private MqttClientOptions Options()
    {
        MqttClientOptionsBuilder options = new MqttClientOptionsBuilder()
            .WithTcpServer(settings.Server, settings.Port)
            .WithProtocolVersion(MQTTnet.Formatter.MqttProtocolVersion.V311)
            .WithCleanSession();
        if (settings.User is { } user)
        {
            options = options.WithCredentials(user, settings.Password!.Read());
        }

        return (settings.Tls ? options.WithTlsOptions(tls => tls.UseTls()) : options).Build();
    }
}
