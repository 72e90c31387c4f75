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

    /// <summary>Does its best: a file system that knows no such flush is left as it is.</summary>
    public static void Flush(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        int handle = Open(folder, ReadOnly);
        if (handle >= 0)
        {
            _ = Sync(handle);
            _ = Close(handle);
        }
    }

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int Sync(int file);

    [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
    private static partial int Close(int file);
}
