using Clackbeat.Site;
using Npgsql;

namespace Clackbeat.Season.Store;

/// <summary>What a server's refusal means to whoever keeps the rams. Codes: PostgreSQL documentation, appendix A.</summary>
internal static class PostgresFailure
{
    /// <summary>The error to throw instead.</summary>
    /// <param name="failure">What the driver threw.</param>
    /// <param name="address">The server.</param>
    public static Exception Explain(Exception failure, PostgresAddress address)
    {
        if (failure is not PostgresException refusal)
        {
            return failure is NpgsqlException { InnerException: null } && failure.Message.Contains("password", StringComparison.OrdinalIgnoreCase)
                ? new InputException($"{address.Shown}: the server asks for a password. Put it into the environment as PGPASSWORD, or into the file ~/.pgpass.", failure)
                : new StoreUnreachableException($"{address.Shown}: the season store's server doesn't answer ({Words(failure)}).", failure);
        }

        return refusal.SqlState switch
        {
            "28P01" or "28000" => new InputException(
                $"{address.Shown}: the server refuses this user ({refusal.MessageText}). Check the user's name, and the password in PGPASSWORD or ~/.pgpass.", failure),
            "3D000" => new InputException($"{address.Shown}: the server has no such database. Make it first, with 'createdb' or its owner's help.", failure),
            "42501" or "25006" => new InputException($"{address.Shown}: this user may not do that here ({refusal.MessageText}). Ask the database's owner for the right to it.", failure),
            _ when Passes(refusal) => new StoreUnreachableException($"{address.Shown}: the season store's server can't take this now ({refusal.MessageText}).", failure),
            _ => failure,
        };
    }

    // Connection lost, deadlock, out of disk or connections, not ready, shut down by its keeper, trouble of its system.
    private static bool Passes(PostgresException refusal) =>
        refusal.IsTransient || refusal.SqlState[..2] is "08" or "40" or "53" or "55" or "57" or "58";

    private static string Words(Exception failure) =>
        (failure.InnerException ?? failure).Message.ReplaceLineEndings(" ").TrimEnd('.', ' ');
}
