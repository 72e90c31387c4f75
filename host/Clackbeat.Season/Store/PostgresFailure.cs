using Clackbeat.Site;
using Clackbeat.Site.Facts;
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
                ? InputException.Of(failure, "store.password-wanted", ("store", address.Shown))
                : new StoreUnreachableException(Fact.Of("store.no-answer", ("store", address.Shown), ("why", Words(failure))), failure);
        }

        return refusal.SqlState switch
        {
            "28P01" or "28000" => InputException.Of(failure, "store.user-refused", ("store", address.Shown), ("why", refusal.MessageText)),
            "3D000" => InputException.Of(failure, "store.no-database", ("store", address.Shown)),
            "42501" or "25006" => InputException.Of(failure, "store.no-right", ("store", address.Shown), ("why", refusal.MessageText)),
            _ when Passes(refusal) => new StoreUnreachableException(Fact.Of("store.cant-take", ("store", address.Shown), ("why", refusal.MessageText)), failure),
            _ => failure,
        };
    }

    // Connection lost, deadlock, out of disk or connections, not ready, shut down by its keeper, trouble of its system.
    private static bool Passes(PostgresException refusal) =>
        refusal.IsTransient || refusal.SqlState[..2] is "08" or "40" or "53" or "55" or "57" or "58";

    private static string Words(Exception failure) =>
        (failure.InnerException ?? failure).Message.ReplaceLineEndings(" ").TrimEnd('.', ' ');
}
