using Clackbeat.Records.Samples;
using Clackbeat.Records.Sources;

namespace Clackbeat.Records.Bursts;

/// <summary>Reads a source once and hands out the bursts that are wanted, each as a source of its own.</summary>
public static class BurstFeed
{
    /// <summary>Hands out bursts.</summary>
    /// <param name="source">The source that the bursts were found in.</param>
    /// <param name="wanted">Bursts of it, in order.</param>
    /// <param name="begin">
    /// Told of each as its first sample comes. It must have the burst read on another thread, or samples back up and the reading
    /// waits for ever.
    /// </param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work early.</param>
    public static void Read(
        ISampleSource source,
        IReadOnlyList<CutBurst> wanted,
        Action<CutBurst, ISampleSource> begin,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        if (wanted.Count == 0)
        {
            return;
        }

        var feed = new Feed(source, wanted, begin);
        try
        {
            source.Read(feed.Take, progress, cancellation);
        }
        finally
        {
            // Whoever still waits for samples must not do so for ever.
            feed.Break();
        }
    }

    private sealed class Feed(ISampleSource source, IReadOnlyList<CutBurst> wanted, Action<CutBurst, ISampleSource> begin)
    {
        private BurstPipe? _pipe;
        private int _next;
        private long _at;

        public void Take(ReadOnlySpan<Sample> samples)
        {
            foreach (ref readonly Sample sample in samples)
            {
                if (_next < wanted.Count && _at >= wanted[_next].FirstSample)
                {
                    _pipe ??= Begin(wanted[_next]);
                    _pipe.Add(sample);
                    if (_at == wanted[_next].FirstSample + wanted[_next].Samples - 1)
                    {
                        _pipe.Complete();
                        _pipe = null;
                        _next++;
                    }
                }

                _at++;
            }
        }

        public void Break() => _pipe?.Break();

        private BurstPipe Begin(CutBurst burst)
        {
            var pipe = new BurstPipe(source, burst);
            begin(burst, pipe);
            return pipe;
        }
    }
}
