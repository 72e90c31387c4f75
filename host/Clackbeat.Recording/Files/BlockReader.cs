using Clackbeat.Site;

namespace Clackbeat.Recording.Files;

/// <summary>A good block. Its payload is valid until the next is read.</summary>
/// <param name="Head">Its header.</param>
/// <param name="Payload">Its payload.</param>
/// <param name="Offset">Where it stands in the file [bytes].</param>
public readonly record struct RecordingBlock(BlockHead Head, ReadOnlyMemory<byte> Payload, long Offset);

/// <summary>Bytes of a file that are no good block.</summary>
/// <param name="Offset">Where they begin [bytes].</param>
/// <param name="Length">How many [bytes].</param>
/// <param name="AtEnd">They run to the end of the file.</param>
public readonly record struct UnfitBytes(long Offset, long Length, bool AtEnd);

/// <summary>Reads the blocks of a recording one by one, over any damage (recording-format §9). Memory stays flat.</summary>
public sealed class BlockReader
{
    private const int Window = 64 * 1024;
    private const int FirstBlock = 4096;

    // A torn block and one written over it make a place belong to two claims; more never come from a recorder. Without
    // a bound, headers one behind another that each claim a megabyte would have the file read a thousand times over.
    private const int MostClaims = 8;
    private const int MostSpoilt = 10_000;

    private readonly Stream _file;
    private readonly string _name;
    private readonly List<(BlockHead Head, long Offset, int Payload)> _spoilt = [];
    private readonly List<long> _claims = [];
    private byte[] _window = [];
    private byte[] _block = new byte[FirstBlock];
    private long _windowAt;
    private int _windowCount;
    private long _at;

    /// <summary>Makes a reader over a stream that can seek.</summary>
    /// <param name="file">The file; not owned.</param>
    /// <param name="name">Its name for messages.</param>
    public BlockReader(Stream file, string name)
    {
        _file = file;
        _name = name;
    }

    /// <summary>Told of bytes that are no good block, before the block behind them is returned.</summary>
    public Action<UnfitBytes>? Unfit { get; set; }

    /// <summary>
    /// Told of each block of frames that is whole but for its payload, once a good block of its session follows: each
    /// frame in it has a CRC of its own. Without a good block behind it, it is a write that was never finished.
    /// </summary>
    public Action<RecordingBlock>? Spoilt { get; set; }

    /// <summary>Share of the file that has been read, 0 to 1.</summary>
    public double Progress => (double)_at / Math.Max(1, _file.Length);

    /// <summary>True when a file begins like a recording.</summary>
    public static bool IsRecording(string path)
    {
        if (!File.Exists(path))
        {
            return false;
        }

        using FileStream file = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        return IsRecording(file);
    }

    /// <summary>True when a stream begins like a recording.</summary>
    internal static bool IsRecording(Stream file)
    {
        Span<byte> head = stackalloc byte[BlockFormat.Marker.Length];
        return file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) == head.Length
            && head.SequenceEqual(BlockFormat.Marker);
    }

    /// <summary>The next good block; null at the end.</summary>
    /// <exception cref="InputException">A newer program wrote the file.</exception>
    public RecordingBlock? Next()
    {
        long from = _at;
        while (true)
        {
            if (TryReadAt(_at) is { } block)
            {
                TellUnfit(from, _at, atEnd: false);
                TellSpoilt(block.Head.Session);
                _at += BlockFormat.HeaderLength + block.Payload.Length + BlockFormat.TailLength;
                return block;
            }

            if (FindMarker(_at + 1) is not { } next)
            {
                _at = Math.Max(from, _file.Length);
                TellUnfit(from, _at, atEnd: true);
                _spoilt.Clear();
                return null;
            }

            _at = next;
        }
    }

    private void TellUnfit(long from, long to, bool atEnd)
    {
        if (to > from)
        {
            Unfit?.Invoke(new UnfitBytes(from, to - from, atEnd));
        }
    }

    // Read anew, so that memory stays flat however many there are.
    private void TellSpoilt(Guid session)
    {
        foreach ((BlockHead head, long offset, int payload) in _spoilt)
        {
            if (Spoilt is { } tell && head.Session == session)
            {
                byte[] bytes = new byte[payload];
                _file.Position = offset + BlockFormat.HeaderLength;
                _file.ReadExactly(bytes);
                tell(new RecordingBlock(head, bytes, offset));
            }
        }

        _spoilt.Clear();
    }

    private RecordingBlock? TryReadAt(long offset)
    {
        _file.Position = offset;
        if (!TryFill(0, BlockFormat.HeaderLength)
            || !BlockFormat.TryReadHead(_block.AsSpan(0, BlockFormat.HeaderLength), out BlockHead head, out int payload))
        {
            return null;
        }

        if (head.FormatVersion != BlockFormat.Version)
        {
            throw InputException.Of("recording.newer", ("file", _name), ("version", head.FormatVersion), ("known", BlockFormat.Version));
        }

        int length = BlockFormat.HeaderLength + payload + BlockFormat.TailLength;
        if (!MayClaim(offset, length))
        {
            return null;
        }

        if (length > _block.Length)
        {
            Array.Resize(ref _block, Math.Max(length, 2 * _block.Length));
        }

        if (!TryFill(BlockFormat.HeaderLength, length))
        {
            return null;
        }

        if (BlockFormat.HasGoodTail(_block.AsSpan(0, length)))
        {
            return new RecordingBlock(head, _block.AsMemory(BlockFormat.HeaderLength, payload), offset);
        }

        _claims.Add(offset + length);
        if (head.Kind == BlockKind.Frames && _spoilt.Count < MostSpoilt)
        {
            _spoilt.Add((head, offset, payload));
        }

        return null;
    }

    // Claims that have ended are forgotten; only ends of blocks with a good header and a wrong tail are kept.
    private bool MayClaim(long offset, int length)
    {
        _claims.RemoveAll(end => end <= offset);
        return _claims.Count < MostClaims && offset + length <= _file.Length;
    }

    private bool TryFill(int from, int to) =>
        _file.ReadAtLeast(_block.AsSpan(from, to - from), to - from, throwOnEndOfStream: false) == to - from;

    private long? FindMarker(long from)
    {
        int overlap = BlockFormat.Marker.Length - 1;

        // Only a damaged recording needs it.
        _window = _window.Length == 0 ? new byte[Window] : _window;
        while (true)
        {
            // Many markers in one window are found in one reading of it.
            if (from < _windowAt || from + BlockFormat.Marker.Length > _windowAt + _windowCount)
            {
                _file.Position = _windowAt = from;
                _windowCount = _file.ReadAtLeast(_window, Window, throwOnEndOfStream: false);
            }

            int skip = (int)(from - _windowAt);
            int found = _window.AsSpan(skip, _windowCount - skip).IndexOf(BlockFormat.Marker);
            if (found >= 0)
            {
                return from + found;
            }

            if (_windowCount < Window)
            {
                return null;
            }

            from = _windowAt + _windowCount - overlap;
        }
    }
}
