namespace Clackbeat.Protocol.Framing;

/// <summary>
/// Finds frames in a stream of bytes that may hold anything (SPEC §1), and counts all it throws away. The body is
/// good until the next <see cref="Push"/>. Nothing is allocated after construction.
/// </summary>
public sealed class FrameDecoder
{
    private readonly byte[] _content = new byte[FrameLimits.MaxContent];
    private int _length;
    private bool _overlong;

    /// <summary>The last good frame's body: its kind and its fields, <see cref="BodyLength"/> bytes of it.</summary>
    public byte[] Body => _content;

    /// <summary>Length of the last good body [bytes].</summary>
    public int BodyLength { get; private set; }

    /// <summary>Good frames so far.</summary>
    public int GoodFrames { get; private set; }

    /// <summary>Pieces between delimiters that were thrown away: too long, too short, ill stuffed, or a wrong CRC.</summary>
    public int DiscardedPieces { get; private set; }

    /// <summary>Bytes thrown away with them.</summary>
    public long DiscardedBytes { get; private set; }

    /// <summary>Bytes of a piece that has no delimiter yet.</summary>
    public int PendingBytes => _length;

    /// <summary>Forgets an unfinished piece, as after a reopened port; the counts stay.</summary>
    public void Reset()
    {
        _length = 0;
        _overlong = false;
    }

    /// <summary>Takes one byte; true when it completed a good frame.</summary>
    public bool Push(byte value)
    {
        if (value != 0)
        {
            Collect(value);
            return false;
        }

        int length = _length;
        bool overlong = _overlong;
        Reset();
        if (length == 0 && !overlong)
        {
            return false;
        }

        if (!overlong && TryUnstuff(length))
        {
            GoodFrames++;
            return true;
        }

        DiscardedPieces++;
        DiscardedBytes += length;
        return false;
    }

    private void Collect(byte value)
    {
        if (_length < FrameLimits.MaxContent)
        {
            _content[_length] = value;
            _length++;
        }
        else
        {
            // Skips to the delimiter: the tail of an overlong piece must never pass for a frame of its own, nor its head.
            // The bytes before are counted at the delimiter, like those of any other piece.
            DiscardedBytes++;
            _overlong = true;
        }
    }

    // Works in place: the unstuffed bytes are never ahead of the stuffed ones.
    private bool TryUnstuff(int length)
    {
        int written = 0;
        int read = 0;
        while (read < length)
        {
            int end = read + _content[read];
            if (end > length)
            {
                return false;
            }

            for (read++; read < end; read++)
            {
                _content[written] = _content[read];
                written++;
            }

            if (end < length)
            {
                _content[written] = 0;
                written++;
            }
        }

        return HasGoodCrc(written);
    }

    private bool HasGoodCrc(int length)
    {
        int body = length - FrameLimits.CrcLength;
        if (body < 1 || Crc32.Compute(_content, 0, body) != Fields.U32(_content, body))
        {
            return false;
        }

        BodyLength = body;
        return true;
    }
}
