using System.Buffers.Binary;
using System.Text;

namespace Clackbeat.Recording.Files;

/// <summary>Builds a payload field by field, with room for the header in front.</summary>
internal sealed class PayloadWriter
{
    private byte[] _bytes = new byte[4096];
    private int _end = BlockFormat.HeaderLength;

    /// <summary>Length of the payload so far [bytes].</summary>
    public int Length => _end - BlockFormat.HeaderLength;

    public void Clear() => _end = BlockFormat.HeaderLength;

    public void U8(int value) => Next(1)[0] = (byte)value;

    public void U16(int value) => BinaryPrimitives.WriteUInt16LittleEndian(Next(2), (ushort)value);

    public void U32(uint value) => BinaryPrimitives.WriteUInt32LittleEndian(Next(4), value);

    public void I64(long value) => BinaryPrimitives.WriteInt64LittleEndian(Next(8), value);

    public void Bytes(ReadOnlySpan<byte> value) => value.CopyTo(Next(value.Length));

    /// <summary>A text with its length; cut at 65535 bytes.</summary>
    public void Text(string value)
    {
        ReadOnlySpan<byte> bytes = Encoding.UTF8.GetBytes(value);
        bytes = bytes[..Math.Min(bytes.Length, ushort.MaxValue)];
        U16(bytes.Length);
        Bytes(bytes);
    }

    /// <summary>The whole block, sealed; good until the next change.</summary>
    public ReadOnlySpan<byte> Seal(BlockHead head)
    {
        Next(BlockFormat.TailLength);
        Span<byte> block = _bytes.AsSpan(0, _end);
        BlockFormat.Seal(block, head);
        return block;
    }

    private Span<byte> Next(int count)
    {
        if (_end + count > _bytes.Length)
        {
            Array.Resize(ref _bytes, Math.Max(_bytes.Length * 2, _end + count));
        }

        _end += count;
        return _bytes.AsSpan(_end - count, count);
    }
}

/// <summary>Takes a payload apart; a payload shorter than its fields makes it fail once and for all.</summary>
internal ref struct PayloadReader(ReadOnlySpan<byte> bytes)
{
    private ReadOnlySpan<byte> _rest = bytes;

    /// <summary>False when a field ran past the end.</summary>
    public bool Ok { get; private set; } = true;

    /// <summary>What has not been read.</summary>
    public readonly ReadOnlySpan<byte> Rest => _rest;

    public int U8() => Next(1)[0];

    public int U16() => BinaryPrimitives.ReadUInt16LittleEndian(Next(2));

    public uint U32() => BinaryPrimitives.ReadUInt32LittleEndian(Next(4));

    public long I64() => BinaryPrimitives.ReadInt64LittleEndian(Next(8));

    public string Text() => Encoding.UTF8.GetString(Bytes(U16()));

    /// <summary>Raw bytes; zeros behind the end.</summary>
    public ReadOnlySpan<byte> Bytes(int count) => Next(count);

    private ReadOnlySpan<byte> Next(int count)
    {
        if (count > _rest.Length)
        {
            Ok = false;
            _rest = [];
            return new byte[count];
        }

        ReadOnlySpan<byte> next = _rest[..count];
        _rest = _rest[count..];
        return next;
    }
}
