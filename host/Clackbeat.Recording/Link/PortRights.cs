namespace Clackbeat.Recording.Link;

/// <summary>Who may use a serial port, and how to become one of them.</summary>
internal static class PortRights
{
    private const int LongestName = 64;

    /// <summary>What to do about it, with the group that owns the port.</summary>
    public static string Remedy(string path)
    {
        string? group = OperatingSystem.IsLinux() ? GroupOf(path) : null;
        return group is null or "root"
            ? "Ask whoever runs this computer for the right to use it."
            : $"Join the group '{group}', which owns it (sudo usermod -a -G {group} {Environment.UserName}), then log out and in again.";
    }

    // stat(1) knows the layout of its system's file status, which differs between machines; we ask it.
    private static string? GroupOf(string path)
    {
        try
        {
            System.Diagnostics.ProcessStartInfo start = new("stat", ["-L", "-c", "%G", path])
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            };
            using System.Diagnostics.Process? stat = System.Diagnostics.Process.Start(start);
            string group = stat?.StandardOutput.ReadToEnd().Trim() ?? "";
            return group.Length is > 0 and < LongestName && group != "UNKNOWN" ? group : null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }
}
