using System.Collections.Frozen;
using System.Security.Cryptography;
using System.Text;

namespace Clackbeat.Unattended.Settings;

/// <summary>A ram's name as the name of a folder, a topic or a file.</summary>
public static class FolderName
{
    // Names of devices on Windows, whatever folder they stand in (Microsoft, "Naming Files, Paths, and Namespaces").
    private static readonly FrozenSet<string> Devices =
    [
        "con", "prn", "aux", "nul", .. Enumerable.Range(0, 10).SelectMany(i => (string[])[$"com{i}", $"lpt{i}"]),
    ];

    /// <summary>A ram's name as a folder's: small letters, digits and hyphens; a name that holds others, or is a device's, gets a mark of its own.</summary>
    public static string Of(string ram)
    {
        string plain = string.Join('-', new string([.. ram.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : ' ')])
            .Split(' ', StringSplitOptions.RemoveEmptyEntries));
        plain = plain.Length > 40 ? plain[..40].TrimEnd('-') : plain;
        bool same = plain.Length > 0 && !Devices.Contains(plain) && ram.ToLowerInvariant().Replace(' ', '-') == plain;
        return same ? plain : $"{(plain.Length > 0 ? plain : "ram")}-{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(ram)))[..4]}";
    }
}
