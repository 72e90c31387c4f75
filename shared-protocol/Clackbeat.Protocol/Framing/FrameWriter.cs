namespace Clackbeat.Protocol.Framing;

/// <summary>
/// Builds one frame in a fixed buffer, with CRC and stuffing advanced byte by byte (SPEC §1). Nothing is allocated
/// after construction. The buffer belongs to the writer and is good until the next <see cref="Begin"/>.
/// </summary>
public class FrameWriter
{
    // Fields, and the steps written out in place: the microcontroller's interpreter inlines no call.
    private protected readonly byte[] _buffer = new byte[FrameLimits.MaxFrame];
    private protected int _position;
    private protected uint _crc;
    private int _codeAt;

    /// <summary>The frame from its first delimiter on; complete after <see cref="End"/>.</summary>
    public byte[] Buffer => _buffer;

    /// <summary>Bytes written so far; after <see cref="End"/> the frame's length.</summary>
    public int Length => _position;

    /// <summary>Starts a frame with its kind.</summary>
    public void Begin(byte kind)
    {
        _buffer[0] = 0;
        _codeAt = 1;
        _position = 2;
        _crc = Crc32.Seed;
        AppendByte(kind);
    }

    /// <summary>Appends one byte to the body. The caller keeps to <see cref="FrameLimits.MaxBody"/>.</summary>
    public void AppendByte(byte value)
    {
        _crc = Crc32.Table0[(int)((_crc ^ value) & 0xFF)] ^ (_crc >> 8);
        Stuff(value);
    }

    /// <summary>Appends a 16-bit number.</summary>
    public void AppendU16(int value)
    {
        AppendByte((byte)value);
        AppendByte((byte)(value >> 8));
    }

    /// <summary>Appends a 32-bit number.</summary>
    public void AppendU32(uint value)
    {
        AppendU16((int)(value & 0xFFFF));
        AppendU16((int)(value >> 16));
    }

    /// <summary>Appends a 48-bit number.</summary>
    public void AppendU48(long value)
    {
        AppendU32((uint)value);
        AppendU16((int)(value >> 32) & 0xFFFF);
    }

    /// <summary>Appends raw bytes.</summary>
    public void AppendBytes(byte[] bytes, int offset, int count)
    {
        for (int i = 0; i < count; i++)
        {
            AppendByte(bytes[offset + i]);
        }
    }

    /// <summary>Closes the frame: CRC, last stuffing code, delimiter.</summary>
    public void End()
    {
        uint crc = ~_crc;
        Stuff((byte)crc);
        Stuff((byte)(crc >> 8));
        Stuff((byte)(crc >> 16));
        Stuff((byte)(crc >> 24));
        _buffer[_codeAt] = (byte)(_position - _codeAt);
        _buffer[_position] = 0;
        _position++;
    }

    // A zero is not written: its place takes the distance to the next one. Groups of 254 never occur in 118 bytes.
    private void Stuff(byte value)
    {
        if (value == 0)
        {
            _buffer[_codeAt] = (byte)(_position - _codeAt);
            _codeAt = _position;
        }
        else
        {
            _buffer[_position] = value;
        }

        _position++;
    }
}
