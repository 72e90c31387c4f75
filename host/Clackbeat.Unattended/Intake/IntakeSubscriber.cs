using System.Buffers;
using System.Net.Sockets;
using System.Security.Authentication;
using System.Security.Cryptography;
using Clackbeat.Season.Packets;
using Clackbeat.Site;
using Clackbeat.Unattended.Forwarding;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;
using MQTTnet;
using MQTTnet.Exceptions;
using MQTTnet.Protocol;

namespace Clackbeat.Unattended.Intake;

/// <summary>
/// Takes packets from a broker under TOPIC/site. Who may publish there is the broker's to say: one account a site. A message is acknowledged only
/// after the store has it, and the sender hears so under TOPIC/site/answer.
/// </summary>
/// <param name="settings">The broker.</param>
/// <param name="desk">Takes the packets.</param>
public sealed class IntakeSubscriber(IntakeBroker settings, IntakeDesk desk)
{
    private static readonly TimeSpan AgainAfter = TimeSpan.FromSeconds(10);
    private readonly TaskCompletionSource _listening = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private bool _isAway;

    /// <summary>Done when it listens for the first time.</summary>
    public Task Listening => _listening.Task;

    /// <summary>Listens until stopped; a broker that goes away is looked for again and again.</summary>
    public async Task Run(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await Listen(stop).ConfigureAwait(false);
            }
            catch (Exception fault) when (fault is MqttCommunicationException or MqttProtocolViolationException or SocketException or InvalidOperationException
                or AuthenticationException or IOException or InputException)
            {
                if (!_isAway)
                {
                    desk.Tell(new LogNews(null, Phrases.Say("intake.broker-away", ("server", settings.Place.Server), ("why", fault.Message)), true));
                    _isAway = true;
                }
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }

            await Task.Delay(AgainAfter, stop).ContinueWith(_ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default).ConfigureAwait(false);
        }
    }

    private async Task Listen(CancellationToken stop)
    {
        using IMqttClient client = new MqttClientFactory().CreateMqttClient();
        using var lost = CancellationTokenSource.CreateLinkedTokenSource(stop);
        client.DisconnectedAsync += _ => lost.IsCancellationRequested ? Task.CompletedTask : lost.CancelAsync();
        client.ApplicationMessageReceivedAsync += message => Take(client, message, stop);

        // The broker keeps what comes while this program is away, as far as it is set up to.
        MqttClientOptions options = Brokers.Options(settings.Place, settings.User, settings.Password, settings.Trusted)
            .WithClientId(settings.ClientId).WithCleanSession(false).WithKeepAlivePeriod(TimeSpan.FromSeconds(30)).Build();
        await client.ConnectAsync(options, stop).ConfigureAwait(false);
        await client.SubscribeAsync($"{settings.Place.Topic}/+", MqttQualityOfServiceLevel.AtLeastOnce, stop).ConfigureAwait(false);
        if (_isAway)
        {
            desk.Tell(new LogNews(null, Phrases.Say("intake.broker-again", ("server", settings.Place.Server)), false));
            _isAway = false;
        }

        _listening.TrySetResult();
        await Task.Delay(Timeout.Infinite, lost.Token).ContinueWith(_ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default).ConfigureAwait(false);
        if (client.IsConnected)
        {
            await client.DisconnectAsync(new MqttClientDisconnectOptions(), CancellationToken.None).ConfigureAwait(false);
        }
    }

    private async Task Take(IMqttClient client, MqttApplicationMessageReceivedEventArgs message, CancellationToken stop)
    {
        message.AutoAcknowledge = false;
        string topic = message.ApplicationMessage.Topic;
        PacketAnswer answer = Answer(topic[(topic.LastIndexOf('/') + 1)..], message.ApplicationMessage.Payload);
        await client.PublishBinaryAsync($"{topic}/{PacketAnswer.Topic}", answer.ToJson(), MqttQualityOfServiceLevel.AtLeastOnce, cancellationToken: stop).ConfigureAwait(false);

        // The sender sends again what was not stored, so the broker need not keep it.
        await message.AcknowledgeAsync(stop).ConfigureAwait(false);
    }

    private PacketAnswer Answer(string name, ReadOnlySequence<byte> payload)
    {
        if (payload.Length > PacketLimits.Bytes)
        {
            return new PacketAnswer { Refused = Phrases.Say("packet.too-large", ("most", PacketLimits.Bytes), ("what", "bytes")), IsFinal = true };
        }

        byte[] bytes = payload.ToArray();
        var answer = new PacketAnswer { Packet = Convert.ToHexStringLower(SHA256.HashData(bytes)) };
        if (desk.Find(name) is not { } site)
        {
            desk.TellOfStranger(name);
            return answer with { Refused = Phrases.Say("intake.no-site") };
        }

        IntakeResult result = desk.Take(site, bytes);
        return result.Verdict == IntakeVerdict.Stored
            ? answer with { Stored = result.Stored, Known = result.Known }
            : answer with { Refused = result.Words, IsFinal = result.Verdict == IntakeVerdict.Unusable };
    }
}
