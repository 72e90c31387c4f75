using System.Data.Common;
using System.Globalization;
using Clackbeat.Season.Store;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Clackbeat.Season.Tests;

/// <summary>A place for a test's stores, gone when the test is: the same tests run on a file and on a server.</summary>
public abstract class StoreHome : IDisposable
{
    /// <summary>Name of the store as a person gives it.</summary>
    public abstract string Name { get; }

    /// <summary>Newest version of its schema.</summary>
    public abstract int Latest { get; }

    /// <summary>Opens it.</summary>
    public ISeasonStore Open(bool create = true) => SeasonStores.Open(Name, create);

    /// <summary>Makes a store as an earlier program would have and leaves its connection open.</summary>
    public abstract DbConnection MakeOld(int version);

    /// <summary>Runs a statement on the store behind its back.</summary>
    public abstract object? Execute(string sql);

    public abstract void Dispose();

    protected static object? Execute(DbConnection connection, string sql)
    {
        using DbCommand command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar();
    }
}

/// <summary>A store in a file.</summary>
public sealed class FileHome : StoreHome
{
    private readonly TemporaryFolder _folder = new();

    public override string Name => _folder["season.db"];

    public override int Latest => SqliteSchema.Latest;

    public override DbConnection MakeOld(int version)
    {
        SqliteConnection old = SqliteSeasonStore.Connect(Name, create: true);
        SqliteSchema.Bring(old, Name, upTo: version);
        return old;
    }

    public override object? Execute(string sql)
    {
        using SqliteConnection connection = SqliteSeasonStore.Connect(Name, create: true);
        return Execute(connection, sql);
    }

    public override void Dispose() => _folder.Dispose();
}

/// <summary>A store in a database of its own on the server that CLACKBEAT_POSTGRES names.</summary>
public sealed class ServerHome : StoreHome
{
    private static readonly string? Server = Environment.GetEnvironmentVariable("CLACKBEAT_POSTGRES");
    private readonly string _database = $"clackbeat_test_{Guid.NewGuid():N}";

    public ServerHome()
    {
        Skip.If(
            string.IsNullOrEmpty(Server),
            "CLACKBEAT_POSTGRES names no PostgreSQL server on which databases may be made, such as Host=127.0.0.1;Port=5432;Username=postgres");
        AsKeeper($"CREATE DATABASE {_database}");
    }

    public override string Name => Address().ConnectionString;

    public override int Latest => PostgresSchema.Latest;

    /// <summary>Where the server listens.</summary>
    public (string Host, int Port) Place => (Address().Host!, Address().Port);

    /// <summary>The store's name through another door.</summary>
    public string NameThrough(int port)
    {
        NpgsqlConnectionStringBuilder builder = Address();
        (builder.Host, builder.Port) = ("127.0.0.1", port);
        return builder.ConnectionString;
    }

    public override DbConnection MakeOld(int version)
    {
        PostgresAddress address = PostgresAddress.TryParse(Name)!;
        var old = new NpgsqlConnection(address.ConnectionString);
        old.Open();
        PostgresSchema.Bring(old, address, create: true, upTo: version);
        return old;
    }

    public override object? Execute(string sql)
    {
        using var connection = new NpgsqlConnection(PostgresAddress.TryParse(Name)!.ConnectionString);
        connection.Open();
        return Execute(connection, sql);
    }

    /// <summary>Ends every connection to the store, as a server that is stopped at once does.</summary>
    public void KillConnections() =>
        AsKeeper($"SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = '{_database}' AND pid <> pg_backend_pid()");

    /// <summary>Lets nobody in, or all again.</summary>
    public void Admit(bool anyone)
    {
        AsKeeper($"ALTER DATABASE {_database} ALLOW_CONNECTIONS {anyone.ToString(CultureInfo.InvariantCulture)}");
        if (!anyone)
        {
            KillConnections();
        }
    }

    public override void Dispose() => AsKeeper($"DROP DATABASE IF EXISTS {_database} WITH (FORCE)");

    private NpgsqlConnectionStringBuilder Address() => new(Server) { Database = _database, Pooling = false };

    private static void AsKeeper(string sql)
    {
        using var connection = new NpgsqlConnection(Server + ";Pooling=false");
        connection.Open();
        Execute(connection, sql);
    }
}
