using System.Runtime.InteropServices;

namespace Clackbeat.Recording.Link;

/// <summary>Who may use a serial port, and how to become one of them.</summary>
internal static partial class PortRights
{
    private const int ReadAndWrite = 4 | 2;
    private const int StatusRoom = 512;

    /// <summary>True when the system says that this user may not read and write the port.</summary>
    public static bool Denied(string path) => !OperatingSystem.IsWindows() && Access(path, ReadAndWrite) != 0;

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
            return group.Length is > 0 and < StatusRoom && group != "UNKNOWN" ? group : null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }

    [LibraryImport("libc", EntryPoint = "access", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Access(string path, int mode);
}
