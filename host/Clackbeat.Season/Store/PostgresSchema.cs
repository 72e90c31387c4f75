using System.Globalization;
using Clackbeat.Site;
using Npgsql;

namespace Clackbeat.Season.Store;

/// <summary>Brings a store on a server to this program's schema; hosts that start at once wait for one another.</summary>
internal static class PostgresSchema
{
    // Any number will do that all hosts share: "clkb" in ASCII.
    private const int Turn = 0x636C6B62;

    private static readonly StoreScripts Scripts = new("postgres");

    /// <summary>Version of the newest script.</summary>
    public static int Latest => Scripts.Latest;

    /// <summary>Applies what is missing; a store that is up to date needs no right to write.</summary>
    /// <param name="connection">An open connection.</param>
    /// <param name="address">Where it is.</param>
    /// <param name="create">Make the tables where there are none.</param>
    /// <param name="upTo">Stop at this version; a test's way to make an old store.</param>
    /// <exception cref="InputException">There is no store and none is to be made, or it is of a later version.</exception>
    public static void Bring(NpgsqlConnection connection, PostgresAddress address, bool create, int? upTo = null)
    {
        using NpgsqlTransaction transaction = connection.BeginTransaction();
        StoreScripts.Execute(connection, string.Create(CultureInfo.InvariantCulture, $"SELECT pg_advisory_xact_lock({Turn})"));
        bool isThere = StoreScripts.Value(connection, "SELECT to_regclass('schema_version')::text") is not null and not DBNull;
        if (!isThere)
        {
            if (!create)
            {
                throw InputException.Of("store.none-in-database", ("store", address.Shown));
            }

            string schema = '"' + address.Schema.Replace("\"", "\"\"", StringComparison.Ordinal) + '"';
            StoreScripts.Execute(connection, $"CREATE SCHEMA IF NOT EXISTS {schema}");
            StoreScripts.Execute(connection, "CREATE TABLE schema_version (version integer PRIMARY KEY, applied_us bigint NOT NULL)");
        }

        int version = (int)StoreScripts.Value(connection, "SELECT COALESCE(MAX(version), 0) FROM schema_version")!;
        Scripts.Bring(connection, address.Shown, version, upTo);
        transaction.Commit();
    }
}
