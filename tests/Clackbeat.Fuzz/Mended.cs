using System.Buffers.Binary;
using Clackbeat.Protocol.Framing;
using HostCrc = System.IO.Hashing.Crc32;

namespace Clackbeat.Fuzz;

/// <summary>
/// Gives mutated bytes right check sums, as somebody would who means harm, so that fuzzing reaches what stands behind
/// them. Written from the two specifications, not with the writers of the program.
/// </summary>
internal static class Mended
{
    private static ReadOnlySpan<byte> Marker => [0xF5, 0x43, 0x4B, 0x42, 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>Pieces between zeros as bodies of good frames (protocol SPEC §1).</summary>
    public static byte[] Line(ReadOnlySpan<byte> bytes)
    {
        FrameWriter writer = new();
        List<byte> line = new(bytes.Length * 2);
        foreach (Range piece in bytes.Split((byte)0))
        {
            ReadOnlySpan<byte> body = Unstuffed(bytes[piece]);
            if (body.Length == 0)
            {
                continue;
            }

            writer.Begin(body[0]);
            foreach (byte value in body[1..Math.Min(body.Length, FrameLimits.MaxBody)])
            {
                writer.AppendByte(value);
            }

            writer.End();
            line.AddRange(writer.Buffer.AsSpan(0, writer.Length));
        }

        return [.. line];
    }

    /// <summary>Blocks of a recording with right header and tail, lengths cut to what is there (recording-format §1).</summary>
    public static byte[] Recording(ReadOnlySpan<byte> bytes)
    {
        byte[] file = bytes.ToArray();
        int at = 0;
        while (file.AsSpan(at).IndexOf(Marker) is >= 0 and var skip)
        {
            at += skip;
            if (at + 60 > file.Length)
            {
                break;
            }

            int room = file.Length - at - 60;
            uint payload = BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(at + 48));
            int length = payload <= room ? (int)payload : NextMarker(file, at, room);
            BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(at + 48), length);
            if (file[at + 9] == 3)
            {
                MendFrames(file.AsSpan(at + 56, length));
            }

            Seal(file, at, 52);
            Seal(file, at, 56 + length);
            at += 60 + length;
        }

        return file;
    }

    private static int NextMarker(byte[] file, int at, int room) =>
        file.AsSpan(at + 8).IndexOf(Marker) is >= 52 and var next ? next - 52 : room;

    private static void Seal(byte[] file, int from, int length) => BinaryPrimitives.WriteUInt32LittleEndian(
        file.AsSpan(from + length), HostCrc.HashToUInt32(file.AsSpan(from + 8, length - 8)));

    // In place, so that a chunk's length stays true: only frames whose stuffing needs no other byte are mended.
    private static void MendFrames(Span<byte> payload)
    {
        foreach (Range piece in payload.Split((byte)0))
        {
            Span<byte> stuffed = payload[piece];
            byte[] body = [.. Unstuffed(stuffed)];
            if (body.Length < 1 || stuffed.Length > FrameLimits.MaxContent)
            {
                continue;
            }

            FrameWriter writer = new();
            writer.Begin(body[0]);
            writer.AppendBytes(body, 1, body.Length - 1);
            writer.End();
            if (writer.Length - 2 == stuffed.Length)
            {
                writer.Buffer.AsSpan(1, stuffed.Length).CopyTo(stuffed);
            }
        }
    }

    // The body without stuffing and CRC; where the stuffing is broken, the piece as it stands.
    private static byte[] Unstuffed(ReadOnlySpan<byte> piece)
    {
        List<byte> plain = new(piece.Length);
        for (int at = 0; at < piece.Length;)
        {
            int end = at + piece[at];
            if (end > piece.Length)
            {
                return piece[..Math.Min(piece.Length, FrameLimits.MaxBody)].ToArray();
            }

            plain.AddRange(piece[(at + 1)..end]);
            if (end < piece.Length)
            {
                plain.Add(0);
            }

            at = end;
        }

        int body = Math.Clamp(plain.Count - FrameLimits.CrcLength, 0, FrameLimits.MaxBody);
        return [.. plain.Take(body)];
    }
}
