using System.Security.Cryptography;
using System.Text;

namespace Clackbeat.Watch.Accounts;

/// <summary>What somebody may do.</summary>
public enum AccountRole
{
    /// <summary>See everything.</summary>
    Reader,

    /// <summary>Also correct marks and bursts.</summary>
    Keeper,
}

/// <summary>Somebody who may see the pages from elsewhere.</summary>
/// <param name="Name">Name, which the journal of corrections keeps.</param>
/// <param name="Role">What he may do.</param>
/// <param name="PasswordHash">Hash of his password, as ASP.NET Core Identity writes it.</param>
public sealed record Account(string Name, AccountRole Role, string PasswordHash)
{
    /// <summary>Changes with the password, so that whoever signed in with the old one has to do so again.</summary>
    internal string Stamp => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(PasswordHash)))[..16];
}
