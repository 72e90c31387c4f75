namespace Clackbeat.Recording.Files;

/// <summary>Where a recording is written: the seam at which a disk can fail.</summary>
public interface IRecordingStore : IDisposable
{
    /// <summary>Appends bytes.</summary>
    /// <exception cref="IOException">The disk did not take them; some may have been written.</exception>
    void Append(ReadOnlySpan<byte> bytes);

    /// <summary>Returns when all that was appended is on the disk itself.</summary>
    /// <exception cref="IOException">It could not be brought there.</exception>
    void Flush();
}

/// <summary>A recording's file on a disk.</summary>
public sealed class DiskStore : IRecordingStore
{
    private readonly FileStream _file;

    private DiskStore(FileStream file) => _file = file;

    /// <summary>Makes a file; never touches one that is there.</summary>
    /// <exception cref="IOException">The name is taken, or the disk refuses.</exception>
    public static DiskStore Create(string path)
    {
        DiskStore store = new(Open(path, FileMode.CreateNew));
        FolderSync.Flush(Path.GetDirectoryName(Path.GetFullPath(path))!);
        return store;
    }

    /// <summary>Opens a file to write on behind its end.</summary>
    public static DiskStore Append(string path)
    {
        DiskStore store = new(Open(path, FileMode.Open));
        store._file.Seek(0, SeekOrigin.End);
        return store;
    }

    /// <inheritdoc/>
    public void Append(ReadOnlySpan<byte> bytes) => _file.Write(bytes);

    /// <inheritdoc/>
    public void Flush() => _file.Flush(flushToDisk: true);

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();

    // No buffer of its own: a block is one write. Others may read meanwhile, but not write.
    private static FileStream Open(string path, FileMode mode) =>
        new(path, mode, FileAccess.Write, FileShare.Read | FileShare.Delete, bufferSize: 0);
}
