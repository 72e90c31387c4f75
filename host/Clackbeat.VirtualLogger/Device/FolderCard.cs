using Clackbeat.Logger.Board;
using Clackbeat.Protocol;

namespace Clackbeat.VirtualLogger.Device;

/// <summary>
/// A folder that stands for a lone logger's card, with what cards do to their owners: they fill up, wear out, are
/// pulled, are locked against writing, take their time, and forget what was not flushed when the power goes.
/// </summary>
public sealed class FolderCard : ICardFiles, IDisposable
{
    private const int SectorBytes = 512;

    // With every write the card's driver writes the file table and the folder anew (FatFs, f_sync).
    private const int SectorsBesideData = 2;

    private readonly string _root;
    private readonly long? _limitBytes;
    private FileStream? _file;
    private FileStream? _reading;
    private VirtualBoard? _board;
    private DeviceCharges _charges = DeviceCharges.Inferred;
    private long _usedBytes;
    private long _safeBytes;
    private long _writes;
    private bool _mounted;
    private bool _wasPulled;

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

    /// <summary>It is pulled at this time, and put back at <see cref="BackAtS"/> [s of true time].</summary>
    public double PulledAtS { get; set; } = double.PositiveInfinity;

    /// <summary>When it is put back [s of true time].</summary>
    public double BackAtS { get; set; } = double.PositiveInfinity;

    /// <summary>A worn file table: files can be made, but not grow.</summary>
    public bool CannotGrow { get; set; }

    /// <summary>Its lock is set: what is on it can be read.</summary>
    public bool IsReadOnly { get; set; }

    /// <summary>
    /// The program wrote to a card without room, and waits for ever: the file system took nothing and said "done" (seen
    /// on the runtime's interpreter with its FAT driver).
    /// </summary>
    public bool HasHung { get; private set; }

    /// <summary>Writes so far.</summary>
    public long Writes => _writes;

    /// <summary>How often a file was opened to be read.</summary>
    public int Openings { get; private set; }

    /// <summary>Files that the card's worn places don't let be made, by their names.</summary>
    public Predicate<string> IsWorn { get; set; } = _ => false;

    /// <inheritdoc/>
    public uint FreeKib => _limitBytes is long limit
        ? (uint)(Math.Max(0, limit - _usedBytes) / 1024)
        : ProtocolVersion.Unknown32;

    /// <inheritdoc/>
    public bool Mount()
    {
        if (_mounted)
        {
            return true;
        }

        if (IsOut())
        {
            return false;
        }

        Directory.CreateDirectory(_root);
        _usedBytes = _limitBytes is null
            ? 0
            : new DirectoryInfo(_root).EnumerateFiles("*", SearchOption.AllDirectories).Sum(f => f.Length);
        _wasPulled = false;
        return _mounted = true;
    }

    /// <inheritdoc/>
    public void Unmount()
    {
        Close();
        _mounted = false;
    }

    /// <inheritdoc/>
    public bool FolderExists(string folder) => Directory.Exists(PathOf(folder, ""));

    /// <inheritdoc/>
    public void MakeFolder(string folder) => Directory.CreateDirectory(PathToWrite(folder, ""));

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

        _file = new FileStream(PathToWrite(folder, name), FileMode.CreateNew, FileAccess.Write, FileShare.Read);
        _safeBytes = 0;
        Charge(0);
    }

    /// <inheritdoc/>
    public bool HasRoomFor(int bytes)
    {
        _ = Opened();
        if (CannotGrow)
        {
            throw new IOException("the file table can't be written");
        }

        // The file table is written twice, growing and shrinking.
        Charge(0);
        Charge(0);
        return !(_usedBytes + bytes > _limitBytes);
    }

    /// <inheritdoc/>
    public void Append(byte[] bytes, int count)
    {
        FileStream file = Opened();
        if (_usedBytes + count > _limitBytes)
        {
            HasHung = true;
            _board?.Hang();
            throw new IOException("no room");
        }

        _usedBytes += count;
        file.Write(bytes, 0, count);
        Charge((count + SectorBytes - 1) / SectorBytes);
    }

    /// <inheritdoc/>
    public void Flush()
    {
        Opened().Flush();
        _safeBytes = Opened().Length;
        Charge(0);
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
        string path = PathToWrite(folder, name);
        _usedBytes -= new FileInfo(path).Length;
        File.Delete(path);
        Charge(0);
    }

    /// <inheritdoc/>
    public long ReadLength => Reading().Length;

    /// <inheritdoc/>
    public void OpenToRead(string folder, string name)
    {
        CloseRead();
        Openings++;
        _reading = new FileStream(PathOf(folder, name), FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
    }

    /// <inheritdoc/>
    public void CloseRead()
    {
        _reading?.Dispose();
        _reading = null;
    }

    /// <inheritdoc/>
    public int Read(long offset, byte[] buffer, int count)
    {
        Reading().Seek(offset, SeekOrigin.Begin);
        return Reading().ReadAtLeast(buffer.AsSpan(0, count), count, throwOnEndOfStream: false);
    }

    /// <inheritdoc/>
    public bool Write(string folder, string name, byte[] bytes, int count)
    {
        string path = PathToWrite(folder, name);
        long more = count - (File.Exists(path) ? new FileInfo(path).Length : 0);
        Charge(1);
        if (_usedBytes + Math.Max(0, more) > _limitBytes)
        {
            return false;
        }

        _usedBytes += more;
        File.WriteAllBytes(path, bytes[..count]);
        return true;
    }

    /// <summary>
    /// The power goes: an open file keeps what was flushed, which is what the oldest file systems do, whose directory
    /// learns of a file's length only then.
    /// </summary>
    public void LosePower()
    {
        _file?.SetLength(_safeBytes);
        Close();
        _mounted = false;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Close();
        CloseRead();
    }

    /// <summary>Puts the card into a device, whose clock is charged with what the card takes.</summary>
    internal void PutInto(VirtualBoard board, DeviceCharges charges)
    {
        _board = board;
        _charges = charges;
        _mounted = false;
    }

    /// <summary>The device starts anew: its program must mount the card again.</summary>
    internal void Reset()
    {
        Close();
        CloseRead();
        _mounted = false;
    }

    private string PathToWrite(string folder, string name) => IsReadOnly
        ? throw new IOException("the card is locked")
        : PathOf(folder, name);

    private string PathOf(string folder, string name) => IsGone()
        ? throw new IOException("no card")
        : Path.Combine(_root, folder, name);

    private FileStream Reading() => IsGone() || _reading is null ? throw new IOException("no card") : _reading;

    private FileStream Opened() => IsGone() || _file is null ? throw new IOException("no card") : _file;

    private bool IsOut() => IsPulled || (_board is { } board && board.TrueS >= PulledAtS && board.TrueS < BackAtS);

    // A card that was out for a moment is not the mounted one any more.
    private bool IsGone()
    {
        if (IsOut() && !_wasPulled)
        {
            _wasPulled = true;
            Close();
        }

        return _wasPulled || !_mounted || _board is { IsOff: true };
    }

    private void Charge(int dataSectors)
    {
        _writes++;
        bool slow = _charges.SlowWriteEvery > 0 && _writes % _charges.SlowWriteEvery == 0;
        _board?.Pass(((dataSectors + SectorsBesideData) * _charges.SectorUs) + (slow ? _charges.SlowWriteUs : 0));
    }
}
