using System.Security.Cryptography;
using Microsoft.AspNetCore.Http;

namespace Clackbeat.Watch.Web;

/// <summary>Devices that were let in, by a secret in their cookie. They end with the program.</summary>
internal sealed class Sessions
{
    /// <summary>Devices at most; the oldest has to go when one more comes.</summary>
    public const int Most = 16;

    private const string CookieName = "clackbeat";
    private const int SecretBytes = 32;

    private readonly Lock _gate = new();
    private readonly Queue<string> _hashes = new();

    /// <summary>Lets a device in.</summary>
    public void Open(HttpContext context)
    {
        string secret = Convert.ToHexString(RandomNumberGenerator.GetBytes(SecretBytes));
        lock (_gate)
        {
            _hashes.Enqueue(Hash(secret));
            if (_hashes.Count > Most)
            {
                _hashes.Dequeue();
            }
        }

        context.Response.Cookies.Append(CookieName, secret, new CookieOptions
        {
            HttpOnly = true,
            SameSite = SameSiteMode.Strict,
            Path = "/",
            IsEssential = true,
        });
    }

    /// <summary>Was this device let in?</summary>
    public bool Knows(HttpContext context)
    {
        if (context.Request.Cookies[CookieName] is not { Length: 2 * SecretBytes } secret)
        {
            return false;
        }

        // What is compared are hashes: how far a guess got can't be learnt from the time it took.
        string hash = Hash(secret);
        lock (_gate)
        {
            return _hashes.Contains(hash);
        }
    }

    private static string Hash(string secret) => Convert.ToHexString(SHA256.HashData(System.Text.Encoding.ASCII.GetBytes(secret)));
}
