using System.Buffers.Binary;

namespace Clackbeat.Protocol.Tests;

/// <summary>An entry of a samples frame: what it is, when, and its figure (counts, or points of a skip) with its channel or reason.</summary>
public readonly record struct PageEntry(string What, long TimeMicroseconds, int Figure, int Detail);

/// <summary>
/// The wire as SPEC.md and the paper on stuffing tell it, plain and slow, for the tests to hold the project's code against.
/// The checksum is a general library's; nothing of the project is called.
/// </summary>
internal static class ByThePage
{
    /// <summary>SPEC §1: delimiter, stuffed body and CRC, delimiter, for a body of any length.</summary>
    public static byte[] Frame(byte[] body)
    {
        byte[] crc = new byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(crc, System.IO.Hashing.Crc32.HashToUInt32(body));
        List<byte> stuffed = [];
        List<byte> group = [];
        foreach (byte value in (byte[])[.. body, .. crc, 0])
        {
            if (value == 0 || group.Count == 254)
            {
                stuffed.AddRange([(byte)(group.Count + 1), .. group]);
                group.Clear();
            }

            if (value != 0)
            {
                group.Add(value);
            }
        }

        return [0, .. stuffed, 0];
    }

    /// <summary>SPEC §6 and §11: the entries of a samples frame's body.</summary>
    public static List<PageEntry> Entries(byte[] body)
    {
        bool wide = body[0] == 0x2C;
        List<byte[]> pieces = [];
        for (int at = 3; at < body.Length; at += pieces[^1].Length)
        {
            int length = body[at] >= 0x80 ? (wide ? 4 : 3) : 1 + (body[at] >> 4);
            pieces.Add(body[at..(at + length)]);
        }

        long point = Number(pieces.Single(p => p[0] == 0x71)[1..]);
        long period = Number(pieces.Single(p => p[0] == 0x32)[1..]);
        long time = point;
        List<PageEntry> entries = [];
        foreach (byte[] piece in pieces)
        {
            if (wide && (piece[0] is >= 0x80 or 0x72))
            {
                bool late = piece[0] == 0x72;
                long bits = Number(late ? piece[1..4] : piece);
                time = point + (late ? Number(piece[4..]) - (1L << 27) : (bits / 65536) - 2048);
                point += period;
                entries.Add(new("sample", time, (int)(bits % 65536), 0));
            }
            else if (!wide && (piece[0] is >= 0x80 or 0x61))
            {
                bool late = piece[0] == 0x61;
                long bits = Number(late ? piece[1..3] : piece);
                time = point + (late ? Number(piece[3..]) - (1L << 27) : (bits / 4096) - 256);
                point += period;
                entries.Add(new("sample", time, (int)(late ? bits : bits % 4096), 0));
            }
            else if (piece[0] == 0x41)
            {
                long points = Number(piece[1..4]);
                point += points * period;
                entries.Add(new("skip", time, (int)points, (int)Number(piece[4..])));
            }
            else if (wide ? piece[0] is >= 0x39 and <= 0x3F : piece[0] is >= 0x21 and <= 0x27)
            {
                entries.Add(new("reading", time, (int)Number(piece[1..]), piece[0] - (wide ? 0x38 : 0x20)));
            }
        }

        entries.Add(new("next point", point, 0, 0));
        return entries;
    }

    /// <summary>A number as so many bytes with the top bit set, seven bits each, lowest first.</summary>
    public static byte[] Sevens(long value, int count) => [.. Enumerable.Range(0, count).Select(i => (byte)(128 + (value / (1L << (7 * i)) % 128)))];

    private static long Number(byte[] sevens) => sevens.Select((b, i) => (b - 128L) * (1L << (7 * i))).Sum();
}
