using System.Data.Common;
using Clackbeat.Site;
using Microsoft.Data.Sqlite;

namespace Clackbeat.Season.Store;

/// <summary>
/// The season store in one SQLite file. Write-ahead logging with synchronous FULL: a transaction that was committed
/// survives a crash of the program, of the system and of the power; one that wasn't leaves no trace (SQLite, "Atomic
/// Commit" and "Write-Ahead Logging").
/// </summary>
public sealed class SqliteSeasonStore : SqlSeasonStore
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

    /// <summary>Takes bursts and marks out in one transaction: an outbox's way to forget what was delivered.</summary>
    /// <param name="bursts">The bursts.</param>
    /// <param name="marks">The marks.</param>
    internal void Remove(IEnumerable<SeasonBurst> bursts, IEnumerable<MaintenanceMark> marks) => Change((writer, transaction) =>
    {
        foreach (SeasonBurst burst in bursts)
        {
            writer.Remove(burst.Ram, burst.SourceHash, transaction);
        }

        foreach (MaintenanceMark mark in marks)
        {
            writer.Remove(mark, transaction);
        }
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
    public override void Dispose()
    {
        _writer.Dispose();
        _connection.Dispose();
    }

    private protected override T Ask<T>(Func<DbConnection, T> ask)
    {
        lock (_turn)
        {
            return ask(_connection);
        }
    }

    private protected override T Read<T>(Func<BurstReader, T> read)
    {
        lock (_turn)
        {
            return read(_reader);
        }
    }

    private protected override T Write<T>(Func<BurstWriter, DbTransaction, T> write)
    {
        lock (_turn)
        {
            using SqliteTransaction transaction = _connection.BeginTransaction(deferred: false);
            T result = write(_writer, transaction);
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
