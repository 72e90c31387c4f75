namespace Clackbeat.Unattended.Settings;

/// <summary>Names of far computers: a part of an address, a topic and an account.</summary>
public static class SiteName
{
    private const int Longest = 60;

    /// <summary>Whether a name is one: small letters, digits and hyphens.</summary>
    /// <param name="name">The name.</param>
    public static bool IsOne(string name) =>
        name.Length is > 0 and <= Longest && name.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-');
}
