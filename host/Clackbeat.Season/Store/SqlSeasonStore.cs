using System.Data.Common;
using Clackbeat.Site;

namespace Clackbeat.Season.Store;

/// <summary>What a season store does in SQL that every store understands; how it reaches its connection and its transactions is its own affair.</summary>
public abstract class SqlSeasonStore : ICorrectableStore, IOverviewStore
{
    /// <inheritdoc/>
    public IReadOnlyList<string> Rams() => Read(r => r.Rams());

    /// <inheritdoc/>
    public virtual int Add(IReadOnlyCollection<SeasonBurst> bursts) => Write((writer, transaction) => writer.Add(bursts, transaction));

    /// <inheritdoc/>
    public bool Has(string ram, byte[] sourceHash) => Read(r => r.Has(ram, sourceHash));

    /// <inheritdoc/>
    public IReadOnlyList<SeasonPoint> Series(string ram, SeasonFigure figure, TimeSpanUtc span) => Read(r => r.Series(ram, figure, span));

    /// <inheritdoc/>
    public IReadOnlyList<BurstState> States(string ram, TimeSpanUtc span) => Read(r => r.States(ram, span));

    /// <inheritdoc/>
    public IEnumerable<SeasonBurst> Bursts(string ram, TimeSpanUtc span) => StorePages.Bursts((BurstPlace after, int most, out BurstPlace last) =>
    {
        (List<SeasonBurst> page, last) = Read(r => (r.Page(ram, span, after, most, out BurstPlace end), end));
        return page;
    });

    /// <inheritdoc/>
    public void Add(MaintenanceMark mark) => Change((writer, transaction) => writer.Add(mark, transaction));

    /// <inheritdoc/>
    public IReadOnlyList<MaintenanceMark> Marks(string ram) => Read(r => r.Marks(ram));

    /// <inheritdoc/>
    public IReadOnlyList<RamSummary> Summaries() => Ask(connection => new SummaryReader(connection).Read());

    /// <inheritdoc/>
    public void Move(IReadOnlyCollection<SeasonBurst> bursts, TimeSpan by, CorrectionNote note) => Change((writer, transaction) =>
    {
        var corrector = new StoreCorrector(writer);
        foreach (SeasonBurst burst in bursts)
        {
            corrector.Move(burst, by, note, transaction);
        }
    });

    /// <inheritdoc/>
    public void Remove(IReadOnlyCollection<SeasonBurst> bursts, CorrectionNote note) => Change((writer, transaction) =>
    {
        var corrector = new StoreCorrector(writer);
        foreach (SeasonBurst burst in bursts)
        {
            corrector.Remove(burst, JournalAction.BurstRemoved, note, transaction);
        }
    });

    /// <inheritdoc/>
    public void Add(MaintenanceMark mark, CorrectionNote note) =>
        Change((writer, transaction) => new StoreCorrector(writer).Add(mark, note, transaction));

    /// <inheritdoc/>
    public void Change(MaintenanceMark was, MaintenanceMark? becomes, CorrectionNote note) =>
        Change((writer, transaction) => new StoreCorrector(writer).Change(was, becomes, note, transaction));

    /// <inheritdoc/>
    public void Merge(string ram, string into, CorrectionNote note) =>
        Change((writer, transaction) => new RamMerger(writer).Merge(ram, into, note, transaction));

    /// <inheritdoc/>
    public void Undo(string ram, long number, CorrectionNote note)
    {
        (JournalEntry? entry, long? burst) = Read(r => r.Journal(ram)).FirstOrDefault(e => e.Entry.Number == number);
        if (entry is null)
        {
            throw InputException.Of("store.no-entry", ("ram", ram), ("number", number));
        }

        Change((writer, transaction) => new StoreCorrector(writer).Undo(ram, entry, burst, note, transaction));
    }

    /// <inheritdoc/>
    public IReadOnlyList<JournalEntry> Journal(string ram) => [.. Read(r => r.Journal(ram)).Select(e => e.Entry)];

    /// <inheritdoc/>
    public abstract void Dispose();

    /// <summary>Asks the connection something; one at a time.</summary>
    private protected abstract T Ask<T>(Func<DbConnection, T> ask);

    /// <summary>Reads; one at a time.</summary>
    private protected abstract T Read<T>(Func<BurstReader, T> read);

    /// <summary>Writes in a transaction of its own, whole or not at all.</summary>
    private protected abstract T Write<T>(Func<BurstWriter, DbTransaction, T> write);

    private protected void Change(Action<BurstWriter, DbTransaction> change) => Write((writer, transaction) =>
    {
        change(writer, transaction);
        return 0;
    });
}
