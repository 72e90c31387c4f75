using System.Globalization;
using System.Reflection;
using Clackbeat.Site;
using Microsoft.Data.Sqlite;

namespace Clackbeat.Season.Store;

/// <summary>
/// Brings a store to this program's schema: numbered scripts, each applied once, in one transaction with the row that says
/// so. A script that has been released is never edited.
/// </summary>
internal static class SqliteSchema
{
    // Marks the file as a season store among all SQLite databases: "clkb" in ASCII.
    private const int ApplicationId = 0x636C6B62;

    /// <summary>Version of the newest script.</summary>
    public static int Latest => Scripts().Count;

    /// <summary>Applies what is missing.</summary>
    /// <param name="connection">An open store.</param>
    /// <param name="path">Its name, for messages.</param>
    /// <param name="upTo">Stop at this version; a test's way to make an old store.</param>
    /// <exception cref="InputException">The file is another program's, or of a later version.</exception>
    public static void Bring(SqliteConnection connection, string path, int? upTo = null)
    {
        // An immediate transaction waits for another process that is at the same thing, and then finds it done.
        using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
        int version = VersionOf(connection, path);
        List<string> scripts = Scripts();
        if (version > scripts.Count)
        {
            throw new InputException(
                $"{path}: this season store has version {version}, and this program knows version {scripts.Count} at most. Use the newer program.");
        }

        for (int next = version + 1; next <= (upTo ?? scripts.Count); next++)
        {
            Execute(connection, scripts[next - 1]);
            Execute(connection, string.Create(
                CultureInfo.InvariantCulture,
                $"INSERT INTO schema_version (version, applied_us) VALUES ({next}, {StoreTime.Of(DateTimeOffset.UtcNow)})"));
        }

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
            throw new InputException($"{path}: this is a database, but no season store. Name another file.");
        }

        Execute(connection, string.Create(CultureInfo.InvariantCulture, $"PRAGMA application_id = {ApplicationId}"));
        Execute(connection, "CREATE TABLE schema_version (version INTEGER PRIMARY KEY, applied_us INTEGER NOT NULL) STRICT");
        return 0;
    }

    private static List<string> Scripts()
    {
        Assembly assembly = typeof(SqliteSchema).Assembly;
        return
        [
            .. assembly.GetManifestResourceNames().Where(n => n.EndsWith(".sql", StringComparison.Ordinal)).Order(StringComparer.Ordinal).Select(name =>
            {
                using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
                return reader.ReadToEnd();
            }),
        ];
    }

    private static void Execute(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // The scripts are this program's own.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }

    private static long Number(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // The queries stand above.
        command.CommandText = sql;
#pragma warning restore CA2100
        return (long)command.ExecuteScalar()!;
    }
}
