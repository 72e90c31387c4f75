using System.Data.Common;
using System.Reflection;
using Clackbeat.Site;

namespace Clackbeat.Season.Store;

/// <summary>
/// Brings a store to this program's schema: numbered scripts, each applied once, in one transaction with the row that says
/// so. A script that has been released is never edited.
/// </summary>
/// <param name="dialect">Which scripts: "sqlite" or "postgres".</param>
internal sealed class StoreScripts(string dialect)
{
    private readonly List<string> _scripts = [.. Read(dialect + "/")];

    /// <summary>Version of the newest script.</summary>
    public int Latest => _scripts.Count;

    /// <summary>Applies what is missing.</summary>
    /// <param name="connection">An open store, a transaction begun.</param>
    /// <param name="name">Its name, for messages.</param>
    /// <param name="version">Its version.</param>
    /// <param name="upTo">Stop at this version; a test's way to make an old store.</param>
    /// <exception cref="InputException">The store is of a later version.</exception>
    public void Bring(DbConnection connection, string name, int version, int? upTo)
    {
        if (version > Latest)
        {
            throw InputException.Of("store.newer", ("store", name), ("version", version), ("known", Latest));
        }

        for (int next = version + 1; next <= (upTo ?? Latest); next++)
        {
            Execute(connection, _scripts[next - 1]);
            Execute(connection, FormattableString.Invariant(
                $"INSERT INTO schema_version (version, applied_us) VALUES ({next}, {StoreTime.Of(DateTimeOffset.UtcNow)})"));
        }
    }

    /// <summary>Runs a statement of this program's own.</summary>
    public static void Execute(DbConnection connection, string sql)
    {
        using DbCommand command = Command(connection, sql);
        // A script that makes an index anew over years of bursts takes its minutes.
        command.CommandTimeout = 0;
        command.ExecuteNonQuery();
    }

    /// <summary>The single value of a query of this program's own.</summary>
    public static object? Value(DbConnection connection, string sql)
    {
        using DbCommand command = Command(connection, sql);
        return command.ExecuteScalar();
    }

    private static DbCommand Command(DbConnection connection, string sql)
    {
        DbCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Scripts and queries stand in this program.
        command.CommandText = sql;
#pragma warning restore CA2100
        return command;
    }

    private static IEnumerable<string> Read(string prefix)
    {
        Assembly assembly = typeof(StoreScripts).Assembly;
        foreach (string name in assembly.GetManifestResourceNames().Where(n => n.StartsWith(prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
            yield return reader.ReadToEnd();
        }
    }
}
