using Clackbeat.Site;
using Npgsql;

namespace Clackbeat.Season.Store;

/// <summary>
/// Where a season store on a server is. The two spellings that PostgreSQL's users know: a URI (libpq, "Connection URIs") and
/// keywords. The password may be left to PGPASSWORD or ~/.pgpass, which the driver reads, and is never shown.
/// </summary>
public sealed class PostgresAddress
{
    private const string OwnSchema = "clackbeat";
    private readonly NpgsqlConnectionStringBuilder _builder;

    private PostgresAddress(NpgsqlConnectionStringBuilder builder)
    {
        _builder = builder;
        builder.ApplicationName ??= "clackbeat";
        builder.SearchPath ??= OwnSchema;

        // A store holds one connection; a line that went dead without a word is noticed within these times.
        builder.Pooling = false;
        if (!builder.ContainsKey("Timeout"))
        {
            builder.Timeout = 5;
        }

        if (!builder.ContainsKey("Command Timeout"))
        {
            builder.CommandTimeout = 20;
        }

        builder.TcpKeepAlive = true;
        builder.MaxAutoPrepare = 60;
        builder.AutoPrepareMinUsages = 2;
    }

    /// <summary>For the driver; may hold a password.</summary>
    internal string ConnectionString => _builder.ConnectionString;

    /// <summary>Schema that holds the tables: <c>clackbeat</c>, so that the database may hold other things, unless a search path is given.</summary>
    internal string Schema => _builder.SearchPath!;

    /// <summary>The address without password.</summary>
    public string Shown =>
        $"postgres://{(string.IsNullOrEmpty(_builder.Username) ? "" : _builder.Username + "@")}{_builder.Host}"
        + $"{(_builder.Port == NpgsqlConnection.DefaultPort ? "" : FormattableString.Invariant($":{_builder.Port}"))}/{_builder.Database}";

    /// <summary>Reads an address; null for a name that is a file's.</summary>
    /// <param name="name">What a person gave.</param>
    /// <exception cref="InputException">It is meant as an address, but is none.</exception>
    public static PostgresAddress? TryParse(string name)
    {
        try
        {
            if (name.StartsWith("postgres://", StringComparison.OrdinalIgnoreCase) || name.StartsWith("postgresql://", StringComparison.OrdinalIgnoreCase))
            {
                return new PostgresAddress(FromUri(name));
            }

            return name.StartsWith("Host=", StringComparison.OrdinalIgnoreCase) || name.StartsWith("Server=", StringComparison.OrdinalIgnoreCase)
                ? new PostgresAddress(new NpgsqlConnectionStringBuilder(name))
                : null;
        }
        catch (Exception failure) when (failure is ArgumentException or FormatException or KeyNotFoundException)
        {
            // The driver's words may repeat what was typed, a password with it.
            throw InputException.Of("store.address");
        }
    }

    // The class library's Uri refuses an empty host, which libpq takes for the local socket.
    private static NpgsqlConnectionStringBuilder FromUri(string text)
    {
        string rest = text[(text.IndexOf("//", StringComparison.Ordinal) + 2)..];
        (string place, string query) = Halves(rest, '?');
        (string authority, string database) = Halves(place, '/');
        int at = authority.LastIndexOf('@');
        (string user, string password) = Halves(at < 0 ? "" : authority[..at], ':');
        string hosts = authority[(at + 1)..];
        int colon = hosts.EndsWith(']') ? -1 : hosts.LastIndexOf(':');
        var builder = new NpgsqlConnectionStringBuilder();
        void Append(string keyword, string value)
        {
            if (value.Length > 0)
            {
                builder[keyword] = Uri.UnescapeDataString(value);
            }
        }

        Append("Host", (colon < 0 ? hosts : hosts[..colon]).Trim('[', ']'));
        Append("Port", colon < 0 ? "" : hosts[(colon + 1)..]);
        Append("Database", database);
        Append("Username", user);
        Append("Password", password);
        foreach (string pair in query.Split('&', StringSplitOptions.RemoveEmptyEntries))
        {
            (string key, string value) = Halves(pair, '=');
            Append(Keyword(key), value);
        }

        if (string.IsNullOrEmpty(builder.Host))
        {
            builder.Host = "/var/run/postgresql";
        }

        return builder;
    }

    // Where libpq and the driver call one thing by two names.
    private static string Keyword(string libpq) => libpq switch
    {
        "dbname" => "Database",
        "user" => "Username",
        "sslmode" => "SSL Mode",
        "sslrootcert" => "Root Certificate",
        "sslcert" => "SSL Certificate",
        "sslkey" => "SSL Key",
        "connect_timeout" => "Timeout",
        "application_name" => "Application Name",
        "search_path" => "Search Path",
        _ => libpq,
    };

    private static (string Before, string After) Halves(string text, char separator)
    {
        int at = text.IndexOf(separator, StringComparison.Ordinal);
        return at < 0 ? (text, "") : (text[..at], text[(at + 1)..]);
    }
}
