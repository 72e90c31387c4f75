using System.Net.Sockets;
using System.Security.Authentication;
using System.Security.Cryptography;
using Clackbeat.Site;
using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Settings;
using Clackbeat.Words;
using MQTTnet;
using MQTTnet.Exceptions;
using MQTTnet.Protocol;

namespace Clackbeat.Unattended.Forwarding;

/// <summary>
/// Publishes packets under TOPIC/site, at least once (QoS 1), and waits for the receiver's own answer under TOPIC/site/answer: a broker
/// that took a message may still lose it before the receiver comes.
/// </summary>
public sealed class BrokerCarrier(ForwardSettings settings) : ICarrier
{
    private readonly TimeSpan _patience = TimeSpan.FromSeconds(60);

    /// <summary>Makes one with another patience.</summary>
    internal BrokerCarrier(ForwardSettings settings, TimeSpan patience)
        : this(settings) => _patience = patience;

    /// <inheritdoc/>
    public string Receiver => settings.Broker!.Server;

    /// <inheritdoc/>
    public async Task<string?> Send(byte[] packet, CancellationToken cancellation)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(_patience);
        try
        {
            using IMqttClient client = new MqttClientFactory().CreateMqttClient();
            var answered = new TaskCompletionSource<PacketAnswer>(TaskCreationOptions.RunContinuationsAsynchronously);
            string id = Convert.ToHexStringLower(SHA256.HashData(packet));
            client.ApplicationMessageReceivedAsync += message =>
            {
                if (PacketAnswer.Read(message.ApplicationMessage.Payload) is { } answer && answer.Packet == id)
                {
                    answered.TrySetResult(answer);
                }

                return Task.CompletedTask;
            };
            string topic = $"{settings.Broker!.Topic}/{settings.Site}";
            await client.ConnectAsync(Brokers.Options(settings.Broker, settings.Site, settings.Secret, settings.Trusted).Build(), limit.Token).ConfigureAwait(false);
            await client.SubscribeAsync($"{topic}/{PacketAnswer.Topic}", MqttQualityOfServiceLevel.AtLeastOnce, limit.Token).ConfigureAwait(false);
            MqttClientPublishResult taken = await client.PublishBinaryAsync(topic, packet, MqttQualityOfServiceLevel.AtLeastOnce, cancellationToken: limit.Token).ConfigureAwait(false);
            if (!taken.IsSuccess)
            {
                throw new DeliveryException(Phrases.Say("delivery.not-taken", ("server", Receiver), ("why", $"{taken.ReasonCode} {taken.ReasonString}".Trim())).Trim());
            }

            PacketAnswer answer = await answered.Task.WaitAsync(limit.Token).ConfigureAwait(false);
            await client.DisconnectAsync(new MqttClientDisconnectOptions(), limit.Token).ConfigureAwait(false);
            return answer.Refused is null || answer.IsFinal ? answer.Refused : throw new DeliveryException($"{Receiver}: {answer.Refused}");
        }
        catch (Exception fault) when (fault is MqttCommunicationException or MqttProtocolViolationException or SocketException or OperationCanceledException
            or InvalidOperationException or InputException or AuthenticationException or IOException)
        {
            throw new DeliveryException(
                fault is OperationCanceledException && !cancellation.IsCancellationRequested ? Phrases.Say("delivery.no-answer", ("server", Receiver)) : $"{Receiver}: {fault.Message}", fault);
        }
    }
}
