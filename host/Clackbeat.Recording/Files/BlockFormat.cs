using System.Buffers.Binary;
using System.IO.Hashing;

namespace Clackbeat.Recording.Files;

/// <summary>The frame around every payload of a recording (recording-format §1).</summary>
internal static class BlockFormat
{
    public const byte Version = 1;
    public const int HeaderLength = 56;
    public const int TailLength = 4;

    /// <summary>Longest payload [bytes]; a reader refuses more before it sets memory aside.</summary>
    public const int MaxPayload = 1 << 20;

    private const int CheckedFrom = 8;
    private const int HeaderCrcAt = 52;

    public static ReadOnlySpan<byte> Marker => [0xF5, 0x43, 0x4B, 0x42, 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>Writes the header in front of a payload that stands at its place, and the CRC behind it.</summary>
    /// <param name="block">The whole block, payload filled in.</param>
    /// <param name="head">What the header says.</param>
    public static void Seal(Span<byte> block, BlockHead head)
    {
        int payload = block.Length - HeaderLength - TailLength;
        Marker.CopyTo(block);
        block[8] = Version;
        block[9] = (byte)head.Kind;
        block[10] = block[11] = 0;
        head.Session.TryWriteBytes(block[12..28]);
        BinaryPrimitives.WriteUInt32LittleEndian(block[28..], head.Sequence);
        BinaryPrimitives.WriteInt64LittleEndian(block[32..], head.UtcMicroseconds);
        BinaryPrimitives.WriteInt64LittleEndian(block[40..], head.ElapsedMicroseconds);
        BinaryPrimitives.WriteInt32LittleEndian(block[48..], payload);
        WriteCrc(block, HeaderCrcAt);
        WriteCrc(block, HeaderLength + payload);
    }

    /// <summary>Reads a header; false where none stands or its CRC is wrong.</summary>
    public static bool TryReadHead(ReadOnlySpan<byte> bytes, out BlockHead head, out int payload)
    {
        head = default;
        payload = 0;
        if (bytes.Length < HeaderLength || !bytes.StartsWith(Marker) || !HasGoodCrc(bytes, HeaderCrcAt))
        {
            return false;
        }

        payload = BinaryPrimitives.ReadInt32LittleEndian(bytes[48..]);
        head = new BlockHead(
            (BlockKind)bytes[9],
            new Guid(bytes[12..28]),
            BinaryPrimitives.ReadUInt32LittleEndian(bytes[28..]),
            BinaryPrimitives.ReadInt64LittleEndian(bytes[32..]),
            BinaryPrimitives.ReadInt64LittleEndian(bytes[40..]),
            bytes[8]);
        return payload is >= 0 and <= MaxPayload;
    }

    /// <summary>True when the CRC behind the payload is right.</summary>
    public static bool HasGoodTail(ReadOnlySpan<byte> block) => HasGoodCrc(block, block.Length - TailLength);

    private static void WriteCrc(Span<byte> block, int at) =>
        BinaryPrimitives.WriteUInt32LittleEndian(block[at..], Crc32.HashToUInt32(block[CheckedFrom..at]));

    private static bool HasGoodCrc(ReadOnlySpan<byte> block, int at) =>
        BinaryPrimitives.ReadUInt32LittleEndian(block[at..]) == Crc32.HashToUInt32(block[CheckedFrom..at]);
}

/// <summary>What a block's header says.</summary>
/// <param name="Kind">What the payload is.</param>
/// <param name="Session">The session it belongs to.</param>
/// <param name="Sequence">Its place in the session, from 0.</param>
/// <param name="UtcMicroseconds">Host calendar when it was closed [µs since 1970-01-01 UTC].</param>
/// <param name="ElapsedMicroseconds">Host time since the session began, which no setting of a clock changes [µs].</param>
/// <param name="FormatVersion">Version of the format.</param>
public readonly record struct BlockHead(
    BlockKind Kind,
    Guid Session,
    uint Sequence,
    long UtcMicroseconds,
    long ElapsedMicroseconds,
    byte FormatVersion = BlockFormat.Version);

/// <summary>Kinds of block (recording-format §2).</summary>
public enum BlockKind : byte
{
    /// <summary>Opens a session.</summary>
    Session = 1,

    /// <summary>A text that travels along.</summary>
    Document = 2,

    /// <summary>Bytes as they came off the line.</summary>
    Frames = 3,

    /// <summary>Something is missing here, and why.</summary>
    Loss = 4,

    /// <summary>Closes a session.</summary>
    End = 5,
}
