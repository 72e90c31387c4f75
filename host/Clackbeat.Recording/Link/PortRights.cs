using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Link;

/// <summary>Who may use a serial port, and how to become one of them.</summary>
internal static class PortRights
{
    private const int LongestName = 64;

    /// <summary>What to do about it, with the group that owns the port.</summary>
    public static Fact Remedy(string path)
    {
        string? group = OperatingSystem.IsLinux() ? GroupOf(path) : null;
        return group is null or "root"
            ? Fact.Of("line.ask-right")
            : Fact.Of("line.join-group", ("group", group), ("user", Environment.UserName));
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
            using var stat = System.Diagnostics.Process.Start(start);
            string group = stat?.StandardOutput.ReadToEnd().Trim() ?? "";
            return group.Length is > 0 and < LongestName && group != "UNKNOWN" ? group : null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }
}
