using System.Buffers;
using System.IO.Compression;
using Clackbeat.Season.Packets;
using Clackbeat.Site;
using Clackbeat.Unattended.Forwarding;

namespace Clackbeat.Fuzz;

/// <summary>What comes over HTTPS or from a broker: a packet of bursts, and the answer to one. The first byte says whether the rest is compressed first.</summary>
internal static class PacketTarget
{
    private static readonly DateTimeOffset Now = new(2026, 11, 30, 12, 0, 0, TimeSpan.Zero);

    public static void Run(byte[] input)
    {
        byte[] bytes = input.Length > 0 && (input[0] & 1) == 1 ? Compressed(input.AsSpan(1)) : input[Math.Min(1, input.Length)..];
        PacketAnswer.Read(new ReadOnlySequence<byte>(bytes))?.ToJson();
        try
        {
            BurstPacket packet = PacketReader.Read(bytes, Now);
            BurstPacket again = PacketReader.Read(PacketWriter.Write(packet), Now);
            BrokenPromiseException.Unless(
                again.Bursts.Count == packet.Bursts.Count && again.Rams.SequenceEqual(packet.Rams), "a packet that was taken in can't be sent on");
        }
        catch (InputException)
        {
            // A packet that is refused in words.
        }
    }

    private static byte[] Compressed(ReadOnlySpan<byte> plain)
    {
        using var bytes = new MemoryStream();
        using (var gzip = new GZipStream(bytes, CompressionLevel.Fastest, leaveOpen: true))
        {
            gzip.Write(plain);
        }

        return bytes.ToArray();
    }
}
