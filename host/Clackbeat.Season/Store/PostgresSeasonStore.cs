using System.Net.Sockets;
using Clackbeat.Site;
using Npgsql;

namespace Clackbeat.Season.Store;

/// <summary>
/// The season store on a PostgreSQL server, for several hosts. A connection that broke is made anew and the work done again, which
/// stores nothing twice; when that doesn't help, <see cref="StoreUnreachableException"/> says so.
/// </summary>
public sealed class PostgresSeasonStore : ICorrectableStore, IOverviewStore
{
    private const int Attempts = 3;
    private readonly Lock _turn = new();
    private readonly PostgresAddress _address;
    private readonly bool _create;
    private NpgsqlConnection? _connection;
    private BurstWriter? _writer;
    private BurstReader? _reader;

    private PostgresSeasonStore(PostgresAddress address, bool create) => (_address, _create) = (address, create);

    /// <summary>Opens a store, bringing it up to date.</summary>
    /// <param name="address">Where it is; the database must exist.</param>
    /// <param name="create">Make the tables when they are missing.</param>
    /// <exception cref="InputException">There is no store, or the server refuses this user.</exception>
    /// <exception cref="StoreUnreachableException">The server doesn't answer.</exception>
    public static PostgresSeasonStore Open(PostgresAddress address, bool create)
    {
        var store = new PostgresSeasonStore(address, create);
        store.Do(_ => 0);
        return store;
    }

    /// <inheritdoc/>
    public IReadOnlyList<string> Rams() => Read(r => r.Rams());

    /// <inheritdoc/>
    /// <remarks>Of bursts whose commit went unanswered and that are sent once more, those of the first try count as known.</remarks>
    public int Add(IReadOnlyCollection<SeasonBurst> bursts)
    {
        // Hosts that store the same bursts at once wait for one another's; in one order for all they can't wait in a ring.
        SeasonBurst[] inOrder = [.. bursts.OrderBy(b => b.Ram, StringComparer.Ordinal).ThenBy(b => Convert.ToHexString(b.SourceHash), StringComparer.Ordinal)];
        return Write(transaction => _writer!.Add(inOrder, transaction));
    }

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
    public void Add(MaintenanceMark mark) => Write(transaction =>
    {
        _writer!.Add(mark, transaction);
        return 1;
    });

    /// <inheritdoc/>
    public IReadOnlyList<MaintenanceMark> Marks(string ram) => Read(r => r.Marks(ram));

    /// <inheritdoc/>
    public IReadOnlyList<RamSummary> Summaries() => Do(connection => new SummaryReader(connection).Read());

    /// <inheritdoc/>
    public void Move(IReadOnlyCollection<SeasonBurst> bursts, TimeSpan by, CorrectionNote note) =>
        Correct((corrector, transaction) =>
        {
            foreach (SeasonBurst burst in bursts)
            {
                corrector.Move(burst, by, note, transaction);
            }
        });

    /// <inheritdoc/>
    public void Remove(IReadOnlyCollection<SeasonBurst> bursts, CorrectionNote note) =>
        Correct((corrector, transaction) =>
        {
            foreach (SeasonBurst burst in bursts)
            {
                corrector.Remove(burst, JournalAction.BurstRemoved, note, transaction);
            }
        });

    /// <inheritdoc/>
    public void Add(MaintenanceMark mark, CorrectionNote note) =>
        Correct((corrector, transaction) => corrector.Add(mark, note, transaction));

    /// <inheritdoc/>
    public void Change(MaintenanceMark was, MaintenanceMark? becomes, CorrectionNote note) =>
        Correct((corrector, transaction) => corrector.Change(was, becomes, note, transaction));

    /// <inheritdoc/>
    public void Undo(string ram, long number, CorrectionNote note)
    {
        (JournalEntry? entry, long? burst) = Read(r => r.Journal(ram)).FirstOrDefault(e => e.Entry.Number == number);
        if (entry is null)
        {
            throw InputException.Of("store.no-entry", ("ram", ram), ("number", number));
        }

        Correct((corrector, transaction) => corrector.Undo(ram, entry, burst, note, transaction));
    }

    /// <inheritdoc/>
    public IReadOnlyList<JournalEntry> Journal(string ram) => [.. Read(r => r.Journal(ram)).Select(e => e.Entry)];

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (_turn)
        {
            Drop();
        }
    }

    private void Correct(Action<StoreCorrector, NpgsqlTransaction> work) => Write(transaction =>
    {
        work(new StoreCorrector(_writer!), transaction);
        return 0;
    });

    private T Read<T>(Func<BurstReader, T> read) => Do(_ => read(_reader!));

    private T Write<T>(Func<NpgsqlTransaction, T> write) => Do(connection =>
    {
        using NpgsqlTransaction transaction = connection.BeginTransaction();
        T result = write(transaction);
        transaction.Commit();
        return result;
    });

    private T Do<T>(Func<NpgsqlConnection, T> work)
    {
        lock (_turn)
        {
            for (int attempt = 1; ; attempt++)
            {
                try
                {
                    return work(_connection ?? Connect());
                }
                catch (Exception failure) when (failure is NpgsqlException or SocketException or TimeoutException || IsDead(failure))
                {
                    Drop();
                    Exception told = PostgresFailure.Explain(failure, _address);
                    if (told is not StoreUnreachableException || attempt == Attempts)
                    {
                        throw told;
                    }
                }
            }
        }
    }

    // Whoever uses a connection that broke unnoticed is told that it is closed.
    private bool IsDead(Exception failure) => failure is InvalidOperationException && _connection is { State: not System.Data.ConnectionState.Open };

    private NpgsqlConnection Connect()
    {
        var connection = new NpgsqlConnection(_address.ConnectionString);
        try
        {
            connection.Open();
            PostgresSchema.Bring(connection, _address, _create);
            (_connection, _writer, _reader) = (connection, new BurstWriter(connection), new BurstReader(connection));
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private void Drop()
    {
        _writer?.Dispose();
        _connection?.Dispose();
        (_connection, _writer, _reader) = (null, null, null);
    }
}
