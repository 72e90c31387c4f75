using System.Runtime.InteropServices;

namespace Clackbeat.Recording.Files;

/// <summary>
/// Brings a folder's entries to the disk. On POSIX systems a new or renamed file may otherwise be gone after a cut of
/// power although its content was flushed (fsync(2): "does not necessarily ensure that the entry in the directory …
/// has also reached disk"). Windows writes entries through its journal and has no such call.
/// </summary>
public static partial class FolderSync
{
    private const int ReadOnly = 0;

    // errno of a disk that fails, is full, or whose user has no room left; the last differs on macOS.
    private const int IoError = 5;
    private const int NoSpace = 28;
    private static readonly int QuotaExceeded = OperatingSystem.IsMacOS() ? 69 : 122;

    /// <summary>Flushes; a file system that knows no such flush is left as it is.</summary>
    /// <exception cref="IOException">The disk failed or is full: the entries may not be there after a cut of power.</exception>
    public static void Flush(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        int handle = Open(folder, ReadOnly);
        if (handle < 0)
        {
            return;
        }

        int fault = Sync(handle) == 0 ? 0 : Marshal.GetLastPInvokeError();
        _ = Close(handle);
        if (fault is IoError or NoSpace || fault == QuotaExceeded)
        {
            throw new IOException($"{Marshal.GetPInvokeErrorMessage(fault)} : '{folder}'");
        }
    }

    /// <summary>Makes a folder and those above it that are missing, so that a cut of power leaves it where it is.</summary>
    /// <exception cref="IOException">It can't be made.</exception>
    public static void Create(string folder)
    {
        string full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        if (Directory.Exists(full) || Path.GetDirectoryName(full) is not { } parent)
        {
            return;
        }

        Create(parent);
        Directory.CreateDirectory(full);
        Flush(parent);
    }

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int Sync(int file);

    [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
    private static partial int Close(int file);
}
