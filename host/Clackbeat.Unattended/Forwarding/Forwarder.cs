using System.Diagnostics;
using Clackbeat.Season.Packets;
using Clackbeat.Season.Store;
using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Forwarding;

/// <summary>
/// Sends what waits in the outbox, packet by packet, oldest first. A packet leaves it only after the receiver has said that it is stored. What the
/// receiver refuses for good is put aside in a file of its own, so that it holds up nothing and is not lost.
/// </summary>
/// <param name="outbox">What waits.</param>
/// <param name="refused">Where what is refused is kept.</param>
/// <param name="carrier">The way.</param>
/// <param name="tell">Told what a keeper should know.</param>
internal sealed class Forwarder(BurstOutbox outbox, BurstOutbox refused, ICarrier carrier, Action<LogNews> tell)
{
    private static readonly TimeSpan LookEvery = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan LongestWait = TimeSpan.FromMinutes(5);
    private static readonly TimeSpan MarksEvery = TimeSpan.FromMinutes(5);
    private readonly HashSet<MaintenanceMark> _marks = [];
    private long? _marksAt;
    private bool _isAway;

    /// <summary>Marks of the store here: a keeper adds them beside the running log. The receiver keeps the same mark once.</summary>
    public Func<IReadOnlyList<MaintenanceMark>> Marks { get; init; } = () => [];

    /// <summary>Sends until stopped.</summary>
    public async Task Run(CancellationToken stop)
    {
        TimeSpan wait = LookEvery;
        while (!stop.IsCancellationRequested)
        {
            wait = await SendAll(stop).ConfigureAwait(false) ? LookEvery : TimeSpan.FromTicks(Math.Min(2 * wait.Ticks, LongestWait.Ticks));
            try
            {
                await Task.Delay(wait, stop).ConfigureAwait(false);
            }
            catch (OperationCanceledException)
            {
                return;
            }
        }
    }

    /// <summary>Sends all that waits.</summary>
    /// <returns>True when nothing waits any more.</returns>
    public async Task<bool> SendAll(CancellationToken stop)
    {
        try
        {
            TakeMarks();
            while (!stop.IsCancellationRequested && outbox.Next() is { } packet)
            {
                await Send(packet, stop).ConfigureAwait(false);
                if (_isAway)
                {
                    tell(new LogNews(null, Phrases.Say("forward.again", ("receiver", carrier.Receiver)), false));
                    _isAway = false;
                }
            }

            return true;
        }
        catch (OperationCanceledException)
        {
            return false;
        }
        catch (Exception fault) when (fault is DeliveryException || StoreGate.IsFault(fault))
        {
            if (!_isAway && !stop.IsCancellationRequested)
            {
                tell(new LogNews(null, Phrases.Say("forward.away", ("receiver", carrier.Receiver), ("why", fault.Message)), true));
                _isAway = true;
            }

            return false;
        }
    }

    private void TakeMarks()
    {
        if (_marksAt is { } at && Stopwatch.GetElapsedTime(at) < MarksEvery)
        {
            return;
        }

        foreach (MaintenanceMark mark in Marks().Where(_marks.Add))
        {
            outbox.Add(mark);
        }

        _marksAt = Stopwatch.GetTimestamp();
    }

    private async Task Send(BurstPacket packet, CancellationToken stop)
    {
        if (await carrier.Send(PacketWriter.Write(packet), stop).ConfigureAwait(false) is { } why)
        {
            if (packet.Bursts.Count + packet.Marks.Count > 1)
            {
                // Which of them it is shows when each goes alone.
                foreach (BurstPacket one in Alone(packet))
                {
                    await Send(one, stop).ConfigureAwait(false);
                }

                return;
            }

            refused.Add(packet.Bursts);
            foreach (MaintenanceMark mark in packet.Marks)
            {
                refused.Add(mark);
            }

            tell(new LogNews(packet.Rams.First(), Phrases.Say("forward.refused", ("receiver", carrier.Receiver), ("why", why)), true));
        }

        outbox.Remove(packet);
    }

    private static IEnumerable<BurstPacket> Alone(BurstPacket packet) =>
        packet.Bursts.Select(b => new BurstPacket([b], [])).Concat(packet.Marks.Select(m => new BurstPacket([], [m])));
}
