using Clackbeat.Logger.Board;
using Clackbeat.Protocol;

namespace Clackbeat.VirtualLogger.Device;

/// <summary>
/// A folder that stands for a lone logger's card, with what cards do to their owners: they fill up, wear out, are
/// pulled, and forget what was not flushed when the power goes.
/// </summary>
public sealed class FolderCard : ICardFiles, IDisposable
{
    private readonly string _root;
    private readonly long? _limitBytes;
    private FileStream? _file;
    private long _usedBytes;
    private long _safeBytes;

    /// <summary>Makes a card on a folder, which is created.</summary>
    /// <param name="root">The folder.</param>
    /// <param name="limitBytes">Room on the card [bytes]; null for no limit.</param>
    public FolderCard(string root, long? limitBytes = null)
    {
        _root = root;
        _limitBytes = limitBytes;
    }

    /// <summary>The card has been pulled: nothing works.</summary>
    public bool IsPulled { get; set; }

    /// <summary>Files that the card's worn places don't let be made, by their names.</summary>
    public Predicate<string> IsWorn { get; set; } = _ => false;

    /// <inheritdoc/>
    public uint FreeKib => _limitBytes is long limit
        ? (uint)(Math.Max(0, limit - _usedBytes) / 1024)
        : ProtocolVersion.Unknown32;

    /// <inheritdoc/>
    public bool Mount()
    {
        if (IsPulled)
        {
            return false;
        }

        Directory.CreateDirectory(_root);
        _usedBytes = _limitBytes is null
            ? 0
            : new DirectoryInfo(_root).EnumerateFiles("*", SearchOption.AllDirectories).Sum(f => f.Length);
        return true;
    }

    /// <inheritdoc/>
    public bool FolderExists(string folder) => Directory.Exists(PathOf(folder, ""));

    /// <inheritdoc/>
    public void MakeFolder(string folder) => Directory.CreateDirectory(PathOf(folder, ""));

    /// <inheritdoc/>
    public string[] Files(string folder) => Directory.GetFiles(PathOf(folder, ""));

    /// <inheritdoc/>
    public bool Exists(string folder, string name) => File.Exists(PathOf(folder, name));

    /// <inheritdoc/>
    public void Create(string folder, string name)
    {
        if (IsWorn(name))
        {
            throw new IOException("worn out");
        }

        _file = new FileStream(PathOf(folder, name), FileMode.CreateNew, FileAccess.Write, FileShare.Read);
        _safeBytes = 0;
    }

    /// <inheritdoc/>
    public void Append(byte[] bytes, int count)
    {
        TakeRoom(count);
        Opened().Write(bytes, 0, count);
    }

    /// <inheritdoc/>
    public void Flush()
    {
        Opened().Flush();
        _safeBytes = Opened().Length;
    }

    /// <inheritdoc/>
    public void Close()
    {
        _file?.Dispose();
        _file = null;
    }

    /// <inheritdoc/>
    public void Delete(string folder, string name)
    {
        long length = Length(folder, name);
        File.Delete(PathOf(folder, name));
        _usedBytes -= length;
    }

    /// <inheritdoc/>
    public long Length(string folder, string name) => new FileInfo(PathOf(folder, name)).Length;

    /// <inheritdoc/>
    public int Read(string folder, string name, long offset, byte[] buffer, int count)
    {
        using FileStream file = new(PathOf(folder, name), FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        file.Seek(offset, SeekOrigin.Begin);
        return file.ReadAtLeast(buffer.AsSpan(0, count), count, throwOnEndOfStream: false);
    }

    /// <inheritdoc/>
    public void Write(string folder, string name, byte[] bytes, int count)
    {
        string path = PathOf(folder, name);
        TakeRoom(count - (File.Exists(path) ? new FileInfo(path).Length : 0));
        File.WriteAllBytes(path, bytes[..count]);
    }

    /// <summary>
    /// The power goes: an open file keeps what was flushed, which is what the oldest file systems do, whose directory
    /// learns of a file's length only then.
    /// </summary>
    public void LosePower()
    {
        _file?.SetLength(_safeBytes);
        Close();
    }

    /// <inheritdoc/>
    public void Dispose() => Close();

    private string PathOf(string folder, string name) => IsPulled
        ? throw new IOException("no card")
        : Path.Combine(_root, folder, name);

    private FileStream Opened() => IsPulled || _file is null ? throw new IOException("no card") : _file;

    private void TakeRoom(long bytes)
    {
        if (bytes > 0 && _usedBytes + bytes > _limitBytes)
        {
            throw new IOException("full");
        }

        _usedBytes += bytes;
    }
}
