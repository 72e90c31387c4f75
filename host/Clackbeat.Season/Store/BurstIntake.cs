namespace Clackbeat.Season.Store;

/// <summary>
/// Takes many bursts into a store: analysed on all cores, stored in the order they came, several a transaction since waiting for
/// the disk takes longer than writing. A burst counts only once its transaction is done.
/// </summary>
/// <param name="store">The store.</param>
/// <param name="workers">Bursts analysed at once; left out: as many as there are processors.</param>
public sealed class BurstIntake(ISeasonStore store, int? workers = null)
{
    private const int ABatch = 16;
    private readonly int _workers = Math.Max(1, workers ?? Environment.ProcessorCount);
    private readonly Queue<Task<SeasonBurst>> _underWay = [];
    private readonly List<SeasonBurst> _batch = [];
    private readonly HashSet<string> _taken = [];

    /// <summary>Bursts stored that were new.</summary>
    public int Added { get; private set; }

    /// <summary>Bursts that the store held already, or that came twice.</summary>
    public int Known { get; private set; }

    /// <summary>Whether a burst is stored or came already; counted where it is.</summary>
    /// <param name="ram">Name of the ram.</param>
    /// <param name="sourceHash">Hash of what was recorded.</param>
    public bool Knows(string ram, byte[] sourceHash)
    {
        bool known = !_taken.Add($"{Convert.ToHexString(sourceHash)} {ram}") || store.Has(ram, sourceHash);
        Known += known ? 1 : 0;
        return known;
    }

    /// <summary>Takes a burst that isn't known; returns when there is room for the next.</summary>
    /// <param name="summarise">Sums it up, on a thread of its own, since it may wait for samples.</param>
    public void Take(Func<SeasonBurst> summarise)
    {
        while (_underWay.Count >= _workers)
        {
            Next();
        }

        _underWay.Enqueue(Task.Factory.StartNew(summarise, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default));
    }

    /// <summary>Stores what is still under way.</summary>
    public void Finish()
    {
        while (_underWay.Count > 0)
        {
            Next();
        }

        Store();
    }

    private void Next()
    {
        try
        {
            _batch.Add(_underWay.Dequeue().GetAwaiter().GetResult());
        }
        catch
        {
            // What came before the burst that can't be used is kept.
            Store();
            throw;
        }

        if (_batch.Count >= ABatch)
        {
            Store();
        }
    }

    private void Store()
    {
        int added = store.Add(_batch);
        Added += added;
        Known += _batch.Count - added;
        _batch.Clear();
    }
}
