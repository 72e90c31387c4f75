using System.IO.Compression;
using System.Text.Json;
using Clackbeat.Site;

namespace Clackbeat.Season.Packets;

/// <summary>
/// Reads packets that anybody may have written. Sizes are bounded before memory is taken, and everything is checked before anything
/// is handed on. Keys and figures of a later program are passed over.
/// </summary>
public static class PacketReader
{
    /// <summary>Reads one.</summary>
    /// <param name="bytes">JSON, compressed by gzip or plain.</param>
    /// <param name="nowUtc">Now; nothing can have been recorded much later.</param>
    /// <exception cref="InputException">It is too large, or no packet; the message says what is wrong.</exception>
    public static BurstPacket Read(ReadOnlyMemory<byte> bytes, DateTimeOffset nowUtc)
    {
        if (bytes.Length > PacketLimits.Bytes)
        {
            throw TooLarge("bytes", PacketLimits.Bytes);
        }

        PacketForm form = Parse(bytes.Span is [0x1f, 0x8b, ..] ? Inflate(bytes) : bytes);
        if (form.Schema != PacketForm.Name)
        {
            throw InputException.Of("packet.schema", ("known", PacketForm.Name));
        }

        (IReadOnlyList<BurstForm?> bursts, IReadOnlyList<MarkForm?> marks) = (form.Bursts ?? [], form.Marks ?? []);
        if (bursts.Count > PacketLimits.Bursts)
        {
            throw TooLarge("bursts", PacketLimits.Bursts);
        }

        if (marks.Count > PacketLimits.Marks)
        {
            throw TooLarge("marks", PacketLimits.Marks);
        }

        var check = new PacketCheck(nowUtc);
        return new BurstPacket([.. bursts.Select(check.Burst)], [.. marks.Select(check.Mark)]);
    }

    private static PacketForm Parse(ReadOnlyMemory<byte> json)
    {
        try
        {
            return JsonSerializer.Deserialize<PacketForm>(json.Span, PacketWriter.Form) ?? throw InputException.Of("packet.schema", ("known", PacketForm.Name));
        }
        catch (JsonException spoilt)
        {
            throw InputException.Of(spoilt, "packet.json", ("at", spoilt.Path ?? "$"));
        }
    }

    private static ReadOnlyMemory<byte> Inflate(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            using var gzip = new GZipStream(new MemoryStream(bytes.ToArray()), CompressionMode.Decompress);
            using var plain = new MemoryStream();
            byte[] chunk = new byte[81_920];
            while (gzip.Read(chunk) is > 0 and var count)
            {
                if (plain.Length + count > PacketLimits.PlainBytes)
                {
                    throw TooLarge("bytes", PacketLimits.PlainBytes);
                }

                plain.Write(chunk, 0, count);
            }

            return plain.ToArray();
        }
        catch (InvalidDataException spoilt)
        {
            throw InputException.Of(spoilt, "packet.json", ("at", "gzip"));
        }
    }

    private static InputException TooLarge(string what, int most) => InputException.Of("packet.too-large", ("most", most), ("what", what));
}
