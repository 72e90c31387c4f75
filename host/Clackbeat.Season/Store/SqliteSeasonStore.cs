using Clackbeat.Site;
using Microsoft.Data.Sqlite;

namespace Clackbeat.Season.Store;

/// <summary>
/// The season store in one SQLite file. Write-ahead logging with synchronous FULL: a transaction that was committed
/// survives a crash of the program, of the system and of the power; one that wasn't leaves no trace (SQLite, "Atomic
/// Commit" and "Write-Ahead Logging").
/// </summary>
public sealed class SqliteSeasonStore : ICorrectableStore, IOverviewStore
{
    private readonly Lock _turn = new();
    private readonly SqliteConnection _connection;
    private readonly BurstWriter _writer;
    private readonly BurstReader _reader;

    private SqliteSeasonStore(SqliteConnection connection)
    {
        _connection = connection;
        _writer = new BurstWriter(connection);
        _reader = new BurstReader(connection);
    }

    /// <summary>Opens a store, bringing it up to date.</summary>
    /// <param name="path">The file.</param>
    /// <param name="create">Make it when it is missing.</param>
    /// <exception cref="InputException">No such file, or it is no season store.</exception>
    public static SqliteSeasonStore Open(string path, bool create)
    {
        if (!create && !File.Exists(path))
        {
            throw InputException.Of("store.none", ("file", path));
        }

        SqliteConnection connection = Connect(path, create);
        try
        {
            SqliteSchema.Bring(connection, path);
            return new SqliteSeasonStore(connection);
        }
        catch (SqliteException failure) when (failure.SqliteErrorCode is 26 or 11)
        {
            connection.Dispose();
            throw InputException.Of(failure, "store.damaged", ("file", path));
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<string> Rams() => Read(r => r.Rams());

    /// <inheritdoc/>
    public int Add(IReadOnlyCollection<SeasonBurst> bursts) =>
        Write(transaction => _writer.Add(bursts, transaction));

    /// <inheritdoc/>
    public bool Has(string ram, byte[] sourceHash) => Read(r => r.Has(ram, sourceHash));

    /// <inheritdoc/>
    public IReadOnlyList<SeasonPoint> Series(string ram, SeasonFigure figure, TimeSpanUtc span) => Read(r => r.Series(ram, figure, span));

    /// <inheritdoc/>
    public IReadOnlyList<BurstState> States(string ram, TimeSpanUtc span) => Read(r => r.States(ram, span));

    /// <inheritdoc/>
    public IEnumerable<SeasonBurst> Bursts(string ram, TimeSpanUtc span) => StorePages.Bursts((BurstPlace after, int most, out BurstPlace last) =>
    {
        lock (_turn)
        {
            return _reader.Page(ram, span, after, most, out last);
        }
    });

    /// <inheritdoc/>
    public void Add(MaintenanceMark mark) => Write(transaction =>
    {
        _writer.Add(mark, transaction);
        return 1;
    });

    /// <inheritdoc/>
    public IReadOnlyList<MaintenanceMark> Marks(string ram) => Read(r => r.Marks(ram));

    /// <inheritdoc/>
    public IReadOnlyList<RamSummary> Summaries()
    {
        lock (_turn)
        {
            return new SummaryReader(_connection).Read();
        }
    }

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

    /// <summary>Takes bursts and marks out in one transaction: an outbox's way to forget what was delivered.</summary>
    /// <param name="bursts">The bursts.</param>
    /// <param name="marks">The marks.</param>
    internal void Remove(IEnumerable<SeasonBurst> bursts, IEnumerable<MaintenanceMark> marks) => Write(transaction =>
    {
        foreach (SeasonBurst burst in bursts)
        {
            _writer.Remove(burst.Ram, burst.SourceHash, transaction);
        }

        foreach (MaintenanceMark mark in marks)
        {
            _writer.Remove(mark, transaction);
        }

        return 0;
    });

    /// <summary>Copies the whole store as it stands into another file while others go on writing (SQLite's backup interface).</summary>
    /// <param name="path">The copy; it must not exist.</param>
    /// <exception cref="InputException">The name is taken.</exception>
    public void BackUp(string path)
    {
        if (File.Exists(path))
        {
            throw InputException.Of("input.exists-other-name", ("file", path));
        }

        using var copy = new SqliteConnection(Text(path, SqliteOpenMode.ReadWriteCreate));
        copy.Open();
        lock (_turn)
        {
            _connection.BackupDatabase(copy);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _writer.Dispose();
        _connection.Dispose();
    }

    private void Correct(Action<StoreCorrector, SqliteTransaction> work) => Write(transaction =>
    {
        work(new StoreCorrector(_writer), transaction);
        return 0;
    });

    private T Read<T>(Func<BurstReader, T> read)
    {
        lock (_turn)
        {
            return read(_reader);
        }
    }

    private T Write<T>(Func<SqliteTransaction, T> write)
    {
        lock (_turn)
        {
            using SqliteTransaction transaction = _connection.BeginTransaction(deferred: false);
            T result = write(transaction);
            transaction.Commit();
            return result;
        }
    }

    internal static SqliteConnection Connect(string path, bool create)
    {
        var connection = new SqliteConnection(Text(path, create ? SqliteOpenMode.ReadWriteCreate : SqliteOpenMode.ReadWrite));
        try
        {
            connection.Open();
            using SqliteCommand command = connection.CreateCommand();
            command.CommandText = "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;";
            command.ExecuteNonQuery();
            return connection;
        }
        catch (SqliteException failure) when (failure.SqliteErrorCode is 26 or 14 or 8)
        {
            connection.Dispose();
            throw failure.SqliteErrorCode == 26
                ? InputException.Of(failure, "store.other-file", ("file", path))
                : InputException.Of(failure, "store.cant-open", ("file", path));
        }
    }

    // Without pooling the file is free as soon as the store is disposed of, so that it may be moved or removed.
    private static string Text(string path, SqliteOpenMode mode) =>
        new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = false, DefaultTimeout = 30 }.ToString();
}
