using System.Threading.Channels;

namespace Clackbeat.Watch.Stream;

/// <summary>
/// Sends each event to every page that listens. A page that takes its events too slowly is not waited for: what it has
/// not taken is thrown away as a whole and it starts again from a fresh picture, so memory never grows.
/// </summary>
internal sealed class EventHub
{
    /// <summary>Events that may wait for one page: some seconds of them.</summary>
    public const int MostWaiting = 128;

    /// <summary>Pages that may listen at once.</summary>
    public const int MostPages = 32;

    private readonly Lock _gate = new();
    private readonly List<Listener> _listeners = [];

    /// <summary>Pages that listen.</summary>
    public int Count
    {
        get
        {
            lock (_gate)
            {
                return _listeners.Count;
            }
        }
    }

    /// <summary>Adds a page, which gets a whole picture first; null when too many listen.</summary>
    /// <param name="picture">Makes the picture; runs while no event can be sent.</param>
    public Listener? Add(Func<byte[]> picture)
    {
        lock (_gate)
        {
            if (_listeners.Count >= MostPages)
            {
                return null;
            }

            var listener = new Listener(picture);
            listener.Offer(picture());
            _listeners.Add(listener);
            return listener;
        }
    }

    /// <summary>Takes a page off.</summary>
    public void Remove(Listener listener)
    {
        lock (_gate)
        {
            _listeners.Remove(listener);
        }
    }

    /// <summary>Sends events, in order.</summary>
    /// <param name="make">Makes them; runs while no page can be added, so that none sees an event twice or misses one.</param>
    public void Send(Func<IReadOnlyList<byte[]>> make)
    {
        lock (_gate)
        {
            foreach (byte[] happening in make())
            {
                _listeners.ForEach(l => l.Offer(happening));
            }
        }
    }

    /// <summary>One page's queue.</summary>
    internal sealed class Listener(Func<byte[]> picture)
    {
        private readonly Channel<byte[]> _queue = Channel.CreateBounded<byte[]>(
            new BoundedChannelOptions(MostWaiting) { SingleReader = false, FullMode = BoundedChannelFullMode.Wait });

        /// <summary>Times this page was too slow and started again.</summary>
        public int Restarts { get; private set; }

        /// <summary>What it is to be sent, in order.</summary>
        public ChannelReader<byte[]> Events => _queue.Reader;

        /// <summary>Puts an event into the queue, or a whole picture in place of all that waits.</summary>
        public void Offer(byte[] happening)
        {
            if (_queue.Writer.TryWrite(happening))
            {
                return;
            }

            Restarts++;
            while (_queue.Reader.TryRead(out _))
            {
            }

            _queue.Writer.TryWrite(picture());
        }
    }
}
