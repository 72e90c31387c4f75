using System.Security.Cryptography;
using System.Text;
using System.Threading.RateLimiting;

namespace Clackbeat.Watch.Web;

/// <summary>How an attempt to open the page with a code went.</summary>
internal enum CodeOutcome
{
    /// <summary>The code was right and is used up.</summary>
    Opened,

    /// <summary>It was not.</summary>
    Wrong,

    /// <summary>Too many wrong ones came; wait.</summary>
    TooMany,
}

/// <summary>
/// A code that opens the page to one device, once. Seven characters of an alphabet of 30 that nobody misreads make 2·10¹⁰
/// codes; at ten tries a minute, from whomever, guessing takes some thousand years.
/// </summary>
internal sealed class OneTimeCode : IDisposable
{
    /// <summary>Tries a minute, right or wrong, from all devices together.</summary>
    public const int TriesPerMinute = 10;

    private const string Alphabet = "23456789ABCDEFGHJKMNPQRSTVWXYZ";
    private const int Length = 7;

    private readonly Lock _gate = new();
    private readonly Action<string> _show;
    private readonly FixedWindowRateLimiter _tries = new(new FixedWindowRateLimiterOptions
    {
        PermitLimit = TriesPerMinute,
        Window = TimeSpan.FromMinutes(1),
        QueueLimit = 0,
    });

    private byte[] _code = [];

    /// <summary>Makes the first code.</summary>
    /// <param name="show">Shows a code to the person at the terminal.</param>
    public OneTimeCode(Action<string> show)
    {
        _show = show;
        Renew();
    }

    /// <summary>Tries a code. A right one is used up, and the next is shown at the terminal.</summary>
    public CodeOutcome Try(string? typed)
    {
        using RateLimitLease lease = _tries.AttemptAcquire();
        if (!lease.IsAcquired)
        {
            return CodeOutcome.TooMany;
        }

        lock (_gate)
        {
            byte[] tried = Encoding.ASCII.GetBytes(Plain(typed ?? ""));
            if (!CryptographicOperations.FixedTimeEquals(tried, _code))
            {
                return CodeOutcome.Wrong;
            }

            Renew();
            return CodeOutcome.Opened;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _tries.Dispose();

    private void Renew()
    {
        string code = RandomNumberGenerator.GetString(Alphabet, Length);
        _code = Encoding.ASCII.GetBytes(code);
        _show(code);
    }

    // People type small letters, spaces and dashes; a telephone adds some of its own.
    private static string Plain(string typed) =>
        new([.. typed.Take(64).Where(char.IsAsciiLetterOrDigit).Select(char.ToUpperInvariant)]);
}
