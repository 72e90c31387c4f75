using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace Clackbeat.Watch.Accounts;

/// <summary>Passwords, hashed and compared by the framework: PBKDF2 with HMAC-SHA512 and a salt of its own for each.</summary>
public static class Passwords
{
    /// <summary>Characters at least: NIST SP 800-63B-4 (2025), 3.1.1.2, for a password that is the only factor.</summary>
    public const int Shortest = 15;

    /// <summary>Characters at most; a longer one would only cost the server time.</summary>
    public const int Longest = 200;

    // OWASP Password Storage Cheat Sheet (2023): at least 210,000 for PBKDF2 with HMAC-SHA512.
    private const int Rounds = 210_000;

    private static readonly PasswordHasher<Account> Hasher = new(Options.Create(new PasswordHasherOptions { IterationCount = Rounds }));

    // Compared with where there is no such account, so that the time taken doesn't tell which names there are.
    private static readonly Lazy<Account> Nobody = new(() => Of("", AccountRole.Reader, Guid.NewGuid().ToString()));

    /// <summary>Makes an account.</summary>
    /// <param name="name">Name.</param>
    /// <param name="role">Role.</param>
    /// <param name="password">The password, which is not kept.</param>
    public static Account Of(string name, AccountRole role, string password)
    {
        var account = new Account(name, role, "");
        return account with { PasswordHash = Hasher.HashPassword(account, password) };
    }

    /// <summary>Whether a password is the account's; takes as long for no account.</summary>
    /// <param name="account">The account; null for none.</param>
    /// <param name="password">What was typed.</param>
    internal static bool Fits(Account? account, string password) =>
        Hasher.VerifyHashedPassword(account ?? Nobody.Value, (account ?? Nobody.Value).PasswordHash, password) != PasswordVerificationResult.Failed && account is not null;
}
