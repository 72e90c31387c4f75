using System.Net;
using System.Net.Sockets;
using System.Threading.RateLimiting;

namespace Clackbeat.Watch.Accounts;

/// <summary>
/// How often somebody may try a password in a quarter of an hour, right or wrong: few times for one account from one address; more from
/// one address for all accounts; and more for one account from everywhere, so that strangers can slow guesses down and hardly keep its owner out.
/// </summary>
internal sealed class SignInLimits : IDisposable
{
    /// <summary>Tries for one account from one address.</summary>
    public const int OfPair = 5;

    /// <summary>Minutes after which one may try again.</summary>
    public const int WindowMinutes = 15;

    private const int OfAddress = 20;
    private const int OfAccount = 60;

    // An IPv6 customer has a network of 64 bits at least (RFC 6177, RFC 4291 2.5.4).
    private const int NetworkBytes = 8;

    private readonly PartitionedRateLimiter<(string Account, string Address)> _limits = PartitionedRateLimiter.CreateChained(
        Limit(k => k.Address, OfAddress), Limit(k => $"{k.Account}\n{k.Address}", OfPair), Limit(k => k.Account, OfAccount));

    /// <summary>Whether a password may be tried now.</summary>
    /// <param name="account">Name that was typed.</param>
    /// <param name="address">Where it comes from.</param>
    public bool MayTry(string account, IPAddress? address)
    {
        using RateLimitLease lease = _limits.AttemptAcquire((account.ToUpperInvariant(), Network(address)));
        return lease.IsAcquired;
    }

    /// <inheritdoc/>
    public void Dispose() => _limits.Dispose();

    private static PartitionedRateLimiter<(string Account, string Address)> Limit(Func<(string Account, string Address), string> of, int tries) =>
        PartitionedRateLimiter.Create<(string Account, string Address), string>(key => RateLimitPartition.GetFixedWindowLimiter(
            of(key), _ => new FixedWindowRateLimiterOptions { PermitLimit = tries, Window = TimeSpan.FromMinutes(WindowMinutes), QueueLimit = 0 }));

    private static string Network(IPAddress? address) => address switch
    {
        null => "",
        { IsIPv4MappedToIPv6: true } => address.MapToIPv4().ToString(),
        { AddressFamily: AddressFamily.InterNetworkV6 } => Convert.ToHexString(address.GetAddressBytes().AsSpan(0, NetworkBytes)),
        _ => address.ToString(),
    };
}
