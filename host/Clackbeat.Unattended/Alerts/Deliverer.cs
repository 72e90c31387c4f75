using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Alerts;

/// <summary>Brings messages out of the book to people, way by way, again and again with growing pauses until each is taken over.</summary>
internal sealed class Deliverer(AlertBook book, IReadOnlyList<IWay> ways, TimeProvider time, Action<LogNews> tell, AlertPacing? pacing = null)
{
    private static readonly TimeSpan PollInterval = TimeSpan.FromSeconds(1);
    private readonly HashSet<string> _failing = [];

    /// <summary>Delivers until stopped.</summary>
    public async Task Run(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await DeliverDue(stop).ConfigureAwait(false);
                await Task.Delay(PollInterval, stop).ConfigureAwait(false);
            }
            catch (OperationCanceledException)
            {
                return;
            }
            catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
            {
                // The book can't be written just now; what was sent is remembered in memory, and the next look tries again.
                stop.WaitHandle.WaitOne(PollInterval);
            }
        }
    }

    /// <summary>Tries once what is due.</summary>
    public async Task DeliverDue(CancellationToken stop)
    {
        DateTimeOffset now = time.GetUtcNow();
        foreach (IGrouping<string, (int Alert, AlertMessage Message, string Way)> due in book.Due(now).GroupBy(d => d.Way))
        {
            // A way that is no longer in the log's file will never come; what waited for it is given up.
            IWay? way = ways.FirstOrDefault(w => w.Name == due.Key);
            (int Alert, AlertMessage Message, string Way)[] waiting = [.. due];
            bool isForPeople = way is { IsForPeople: true };
            IReadOnlyList<(int Alert, AlertMessage Message, string Way)> ready = way is null || pacing is null
                ? waiting
                : pacing.Ready(waiting, w => w.Message, isForPeople, now);
            int atOnce = isForPeople && pacing is not null ? Math.Max(1, ready.Count) : 1;
            foreach ((int Alert, AlertMessage Message, string Way)[] together in ready.Chunk(atOnce))
            {
                if (stop.IsCancellationRequested)
                {
                    return;
                }

                AlertMessage message = together is [var one] ? one.Message : AlertMessage.Several([.. together.Select(t => t.Message)], now);
                string? error = way is null ? null : await Try(way, message, stop).ConfigureAwait(false);
                if (error is not null && stop.IsCancellationRequested)
                {
                    return;
                }

                foreach ((int alert, AlertMessage told, _) in together)
                {
                    Tell(due.Key, error, book.Tried(alert, told.Id, due.Key, time.GetUtcNow(), error));
                }
            }
        }
    }

    private static async Task<string?> Try(IWay way, AlertMessage message, CancellationToken stop)
    {
        try
        {
            await way.Send(message, stop).ConfigureAwait(false);
            return null;
        }
        catch (DeliveryException fault)
        {
            return fault.Message;
        }
        catch (Exception fault) when (fault is not OutOfMemoryException)
        {
            // A library's surprise must not end the log; the message is tried again like any other.
            return $"{fault.GetType().Name}: {fault.Message}";
        }
    }

    private void Tell(string way, string? error, WayTries tries)
    {
        if (error is null)
        {
            if (_failing.Remove(way))
            {
                tell(new LogNews(null, Phrases.Say("unattended.way-again", ("way", way)), false));
            }
        }
        else if (tries.Done)
        {
            tell(new LogNews(null, Phrases.Say("unattended.way-given-up", ("way", way), ("why", error)), true));
        }
        else if (_failing.Add(way))
        {
            tell(new LogNews(null, Phrases.Say("unattended.way-failing", ("way", way), ("why", error)), true));
        }
    }
}
