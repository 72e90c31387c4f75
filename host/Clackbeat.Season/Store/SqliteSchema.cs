using System.Globalization;
using Clackbeat.Site;
using Microsoft.Data.Sqlite;

namespace Clackbeat.Season.Store;

/// <summary>Brings a SQLite store to this program's schema.</summary>
internal static class SqliteSchema
{
    // Marks the file as a season store among all SQLite databases: "clkb" in ASCII.
    private const int ApplicationId = 0x636C6B62;

    private static readonly StoreScripts Scripts = new("sqlite");

    /// <summary>Version of the newest script.</summary>
    public static int Latest => Scripts.Latest;

    /// <summary>Applies what is missing.</summary>
    /// <param name="connection">An open store.</param>
    /// <param name="path">Its name, for messages.</param>
    /// <param name="upTo">Stop at this version; a test's way to make an old store.</param>
    /// <exception cref="InputException">The file is another program's, or of a later version.</exception>
    public static void Bring(SqliteConnection connection, string path, int? upTo = null)
    {
        // An immediate transaction waits for another process that is at the same thing, and then finds it done.
        using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
        Scripts.Bring(connection, path, VersionOf(connection, path), upTo);
        transaction.Commit();
    }

    private static int VersionOf(SqliteConnection connection, string path)
    {
        long id = Number(connection, "PRAGMA application_id");
        if (id == ApplicationId)
        {
            return (int)Number(connection, "SELECT COALESCE(MAX(version), 0) FROM schema_version");
        }

        if (id != 0 || Number(connection, "SELECT COUNT(*) FROM sqlite_master") > 0)
        {
            throw InputException.Of("store.other-database", ("file", path));
        }

        StoreScripts.Execute(connection, string.Create(CultureInfo.InvariantCulture, $"PRAGMA application_id = {ApplicationId}"));
        StoreScripts.Execute(connection, "CREATE TABLE schema_version (version INTEGER PRIMARY KEY, applied_us INTEGER NOT NULL) STRICT");
        return 0;
    }

    private static long Number(SqliteConnection connection, string sql) => (long)StoreScripts.Value(connection, sql)!;
}
