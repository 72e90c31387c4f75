using Clackbeat.Season.Store;

namespace Clackbeat.Season.Packets;

/// <summary>
/// A store of this computer whose bursts and marks are also to reach another. They are put into the outbox first: after a crash in
/// between they come again, and the other computer knows them by their hash.
/// </summary>
/// <param name="store">The store here.</param>
/// <param name="outbox">What waits to be sent.</param>
public sealed class ForwardingSeasonStore(ISeasonStore store, BurstOutbox outbox) : ISeasonStore
{
    /// <summary>The store here.</summary>
    public ISeasonStore Own => store;

    /// <inheritdoc/>
    public int Add(IReadOnlyCollection<SeasonBurst> bursts)
    {
        outbox.Add(bursts);
        return store.Add(bursts);
    }

    /// <inheritdoc/>
    public void Add(MaintenanceMark mark)
    {
        outbox.Add(mark);
        store.Add(mark);
    }

    /// <inheritdoc/>
    public IReadOnlyList<string> Rams() => store.Rams();

    /// <inheritdoc/>
    public bool Has(string ram, byte[] sourceHash) => store.Has(ram, sourceHash);

    /// <inheritdoc/>
    public IReadOnlyList<SeasonPoint> Series(string ram, SeasonFigure figure, TimeSpanUtc span) => store.Series(ram, figure, span);

    /// <inheritdoc/>
    public IReadOnlyList<BurstState> States(string ram, TimeSpanUtc span) => store.States(ram, span);

    /// <inheritdoc/>
    public IEnumerable<SeasonBurst> Bursts(string ram, TimeSpanUtc span) => store.Bursts(ram, span);

    /// <inheritdoc/>
    public IReadOnlyList<MaintenanceMark> Marks(string ram) => store.Marks(ram);

    /// <inheritdoc/>
    public void Dispose()
    {
        store.Dispose();
        outbox.Dispose();
    }
}
