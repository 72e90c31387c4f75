namespace Clackbeat.Unattended.Settings;

/// <summary>What makes a service of the log.</summary>
public static class ServiceText
{
    /// <summary>A unit for systemd: the log as a user of its own that may do little else.</summary>
    /// <param name="settings">The log.</param>
    /// <param name="program">Command line of the program.</param>
    /// <param name="config">Its file.</param>
    /// <param name="user">User to run as.</param>
    public static string Systemd(LogSettings settings, string program, string config, string user)
    {
        using var reader = new StreamReader(typeof(ServiceText).Assembly.GetManifestResourceStream("systemd-unit.txt")!);
        return reader.ReadToEnd()
            .Replace("{{program}}", program, StringComparison.Ordinal)
            .Replace("{{config}}", Quoted(config), StringComparison.Ordinal)
            .Replace("{{user}}", user, StringComparison.Ordinal)
            .Replace("{{folders}}", string.Join(' ', Folders(settings).Select(Quoted)), StringComparison.Ordinal);
    }

    /// <summary>Commands for an administrator's prompt of Windows.</summary>
    /// <param name="program">Path of the program.</param>
    /// <param name="config">Its file.</param>
    public static string Windows(string program, string config) => $"""
        sc.exe create Clackbeat binPath= "\"{program}\" log --config \"{config}\"" start= delayed-auto obj= "NT AUTHORITY\LocalService"
        sc.exe failure Clackbeat reset= 86400 actions= restart/30000
        sc.exe start Clackbeat

        """;

    /// <summary>A word of a unit file: in quotes where it holds blanks; % and $ would mean something there.</summary>
    /// <param name="word">The word.</param>
    public static string Quoted(string word)
    {
        string plain = word.Replace("%", "%%", StringComparison.Ordinal).Replace("$", "$$", StringComparison.Ordinal);
        return plain.AsSpan().ContainsAny(" \t\"\\") ? $"\"{plain.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)}\"" : plain;
    }

    // SQLite writes beside the store, so its folder is opened, not the file; a server is no folder.
    private static IEnumerable<string> Folders(LogSettings settings)
    {
        string? store = Path.IsPathFullyQualified(settings.Store) ? Path.GetDirectoryName(settings.Store) : null;
        return store is null || settings.Folder.StartsWith(store + Path.DirectorySeparatorChar, StringComparison.Ordinal)
            ? [store ?? settings.Folder]
            : [settings.Folder, store];
    }
}
