using Clackbeat.Site;

namespace Clackbeat.Season.Store;

/// <summary>Opens a season store by the name a person gives it: a file, or the address of a PostgreSQL server.</summary>
public static class SeasonStores
{
    /// <summary>Opens a store, bringing it up to date.</summary>
    /// <param name="name">A file, <c>postgres://user@host/database</c>, or <c>Host=…;Database=…</c>.</param>
    /// <param name="create">Make it when it is missing; a server's database must be there.</param>
    /// <exception cref="InputException">There is no such store, or it may not be opened.</exception>
    /// <exception cref="StoreUnreachableException">The server doesn't answer.</exception>
    public static ISeasonStore Open(string name, bool create) => PostgresAddress.TryParse(name) is { } server
        ? PostgresSeasonStore.Open(server, create)
        : SqliteSeasonStore.Open(name, create);

    /// <summary>
    /// Opens a store to write to for a long time: a server's is buffered in a file beside while it can't be reached, also when it
    /// can't be reached now.
    /// </summary>
    /// <param name="name">As for <see cref="Open"/>; made when missing.</param>
    /// <param name="outbox">The file; not touched where the store is a file itself.</param>
    /// <exception cref="InputException">The store may not be opened.</exception>
    public static ISeasonStore OpenBuffered(string name, string outbox) => PostgresAddress.TryParse(name) is { } server
        ? BufferedSeasonStore.Open(() => PostgresSeasonStore.Open(server, create: true), outbox)
        : SqliteSeasonStore.Open(name, create: true);

    /// <summary>Whether a name is a server's address and no file.</summary>
    /// <param name="name">The name.</param>
    public static bool IsServer(string name) => PostgresAddress.TryParse(name) is not null;

    /// <summary>A store's name fit to be shown: an address without what is secret in it.</summary>
    /// <param name="name">The name.</param>
    public static string Shown(string name) => PostgresAddress.TryParse(name)?.Shown ?? name;
}
