using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using Clackbeat.Unattended.Settings;
using Microsoft.AspNetCore.Identity;

namespace Clackbeat.Unattended.Intake;

/// <summary>
/// Knows senders by their secrets. The file holds only what the framework's password hasher made of them; a secret that was right once is
/// known again by a keyed hash in memory, since that hasher is slow on purpose. Who is wrong too often from one address must wait.
/// </summary>
/// <param name="sites">The senders, by name.</param>
/// <param name="time">The unbroken clock.</param>
public sealed class SiteDoor(IReadOnlyDictionary<string, IntakeSite> sites, TimeProvider time)
{
    /// <summary>Wrong tries after which an address must wait.</summary>
    internal const int MostWrong = 10;

    private const int SecretBytes = 24;
    private const int MostAddresses = 10_000;

    /// <summary>How long it must wait.</summary>
    internal static readonly TimeSpan Wait = TimeSpan.FromMinutes(15);

    private static readonly PasswordHasher<string> Hasher = new();

    // Of a name that nobody has: a stranger must not learn from the time an answer takes which names there are.
    private static readonly string Nobody = Hasher.HashPassword("", MakeSecret());

    private readonly byte[] _key = RandomNumberGenerator.GetBytes(32);
    private readonly ConcurrentDictionary<string, byte[]> _known = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, (int Wrong, long SinceAt)> _tries = new(StringComparer.Ordinal);
    private readonly Lock _turn = new();

    /// <summary>A new secret, which nobody can guess.</summary>
    public static string MakeSecret() => Convert.ToBase64String(RandomNumberGenerator.GetBytes(SecretBytes)).Replace('+', '-').Replace('/', '_');

    /// <summary>What the file keeps of a secret.</summary>
    /// <param name="site">The sender's name.</param>
    /// <param name="secret">The secret.</param>
    public static string Hash(string site, string secret) => Hasher.HashPassword(site, secret);

    /// <summary>Lets a sender in, or not.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="secret">Its secret.</param>
    /// <param name="address">Where it comes from.</param>
    /// <param name="mustWait">Not even looked at: wrong too often.</param>
    public IntakeSite? LetIn(string name, string secret, string address, out bool mustWait)
    {
        mustWait = false;
        IntakeSite? site = sites.GetValueOrDefault(name);
        byte[] keyed = HMACSHA256.HashData(_key, Encoding.UTF8.GetBytes(secret));
        if (site is not null && _known.TryGetValue(name, out byte[]? known) && CryptographicOperations.FixedTimeEquals(keyed, known))
        {
            return site;
        }

        string from = $"{address} {name}";
        if (MustWait(from) || MustWait(address))
        {
            mustWait = true;
            return null;
        }

        // One at a time: the hasher takes a good part of a processor, and strangers shall not get all of them.
        bool isRight;
        lock (_turn)
        {
            isRight = Hasher.VerifyHashedPassword(name, site?.SecretHash ?? Nobody, secret) != PasswordVerificationResult.Failed && site is not null;
        }

        if (isRight)
        {
            _known[name] = keyed;
            _tries.TryRemove(from, out _);
            return site;
        }

        Note(from);
        Note(address);
        return null;
    }

    // An address that many senders share, as behind one router, may be wrong more often in all than one of them.
    private bool MustWait(string from) => _tries.TryGetValue(from, out (int Wrong, long SinceAt) tries)
        && tries.Wrong >= (from.Contains(' ', StringComparison.Ordinal) ? MostWrong : 5 * MostWrong)
        && time.GetElapsedTime(tries.SinceAt) < Wait;

    private void Note(string from)
    {
        if (_tries.Count >= MostAddresses)
        {
            foreach ((string old, (_, long sinceAt)) in _tries)
            {
                if (time.GetElapsedTime(sinceAt) >= Wait)
                {
                    _tries.TryRemove(old, out _);
                }
            }
        }

        _tries.AddOrUpdate(from, _ => (1, time.GetTimestamp()), (_, t) => time.GetElapsedTime(t.SinceAt) < Wait ? (t.Wrong + 1, t.SinceAt) : (1, time.GetTimestamp()));
    }
}
