using Clackbeat.Logger.Alone;
using Clackbeat.Logger.Board;
using Clackbeat.Protocol;

namespace Clackbeat.VirtualLogger.Device;

/// <summary>A folder that stands for a lone logger's card, with a limit to its room where one is wanted.</summary>
public sealed class FolderStorage : IBurstStorage, IDisposable
{
    private readonly string _root;
    private readonly long? _limitBytes;
    private FileStream? _file;
    private long _usedBytes;
    private bool _full;
    private bool _failed;

    /// <summary>Makes a storage on a folder, which is created.</summary>
    /// <param name="root">The folder.</param>
    /// <param name="limitBytes">Room on the card [bytes]; null for no limit.</param>
    public FolderStorage(string root, long? limitBytes = null)
    {
        _root = root;
        _limitBytes = limitBytes;
    }

    /// <inheritdoc/>
    public int State => !Directory.Exists(_root) ? StorageStates.Missing
        : _full ? StorageStates.Full
        : _failed ? StorageStates.Failing
        : StorageStates.Ready;

    /// <inheritdoc/>
    public uint FreeKib => _limitBytes is long limit
        ? (uint)(Math.Max(0, limit - _usedBytes) / 1024)
        : ProtocolVersion.Unknown32;

    /// <inheritdoc/>
    public uint FirstBurst => Bursts().DefaultIfEmpty().Min();

    /// <inheritdoc/>
    public uint LastBurst => Bursts().DefaultIfEmpty().Max();

    /// <inheritdoc/>
    public uint BurstCount => (uint)Bursts().Count();

    /// <inheritdoc/>
    public bool Open()
    {
        Directory.CreateDirectory(_root);
        _usedBytes = Directory.EnumerateFiles(_root, "*", SearchOption.AllDirectories)
            .Sum(path => new FileInfo(path).Length);
        _full = _usedBytes >= _limitBytes;
        return true;
    }

    /// <inheritdoc/>
    public bool Begin(uint burst)
    {
        string path = PathOf(burst);
        if (_full || File.Exists(path))
        {
            return false;
        }

        return Succeeds(() =>
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            _file = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.Read);
        });
    }

    /// <inheritdoc/>
    public bool Append(byte[] bytes, int count)
    {
        if (_file is null || _usedBytes + count > _limitBytes)
        {
            _full = _file is not null;
            return false;
        }

        _usedBytes += count;
        return Succeeds(() => _file.Write(bytes, 0, count));
    }

    /// <inheritdoc/>
    public bool End()
    {
        _file?.Dispose();
        _file = null;
        return true;
    }

    /// <inheritdoc/>
    public uint LengthOf(uint burst) => File.Exists(PathOf(burst)) ? (uint)new FileInfo(PathOf(burst)).Length : 0;

    /// <inheritdoc/>
    public int Read(uint burst, uint offset, byte[] buffer, int count)
    {
        using FileStream file = new(PathOf(burst), FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        file.Seek(offset, SeekOrigin.Begin);
        return file.ReadAtLeast(buffer.AsSpan(0, count), count, throwOnEndOfStream: false);
    }

    /// <inheritdoc/>
    public int ReadState(int slot, byte[] buffer)
    {
        string path = Path.Combine(_root, BurstNames.State(slot));
        if (!File.Exists(path))
        {
            return 0;
        }

        byte[] content = File.ReadAllBytes(path);
        int count = Math.Min(content.Length, buffer.Length);
        Array.Copy(content, buffer, count);
        return count;
    }

    /// <inheritdoc/>
    public bool WriteState(int slot, byte[] bytes, int count)
    {
        return Succeeds(() => File.WriteAllBytes(Path.Combine(_root, BurstNames.State(slot)), bytes[..count]));
    }

    /// <inheritdoc/>
    public void Dispose() => End();

    private string PathOf(uint burst) => Path.Combine(_root, BurstNames.Folder(burst), BurstNames.File(burst));

    private IEnumerable<uint> Bursts()
    {
        foreach (string path in Directory.EnumerateFiles(_root, "*" + BurstNames.Ending, SearchOption.AllDirectories))
        {
            if (uint.TryParse(Path.GetFileNameWithoutExtension(path), out uint burst))
            {
                yield return burst;
            }
        }
    }

    private bool Succeeds(Action write)
    {
        try
        {
            write();
            _failed = false;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            _failed = true;
        }

        return !_failed;
    }
}
