using System.IO.Compression;
using System.Text.Json;
using System.Text.Json.Serialization;
using Clackbeat.Season.Store;

namespace Clackbeat.Season.Packets;

/// <summary>Writes packets: JSON, compressed, since a far logger's line is paid by the byte.</summary>
public static class PacketWriter
{
    internal static readonly JsonSerializerOptions Form = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        MaxDepth = 6,
    };

    /// <summary>Writes one.</summary>
    /// <param name="packet">The packet.</param>
    public static byte[] Write(BurstPacket packet)
    {
        using var bytes = new MemoryStream();
        using (var gzip = new GZipStream(bytes, CompressionLevel.Optimal, leaveOpen: true))
        {
            JsonSerializer.Serialize(gzip, FormOf(packet), Form);
        }

        return bytes.ToArray();
    }

    private static PacketForm FormOf(BurstPacket packet) => new()
    {
        Schema = PacketForm.Name,
        Bursts = [.. packet.Bursts.Select(FormOf)],
        Marks = [.. packet.Marks.Select(m => new MarkForm(m.Ram, m.AtUtc.ToUniversalTime(), m.Words))],
    };

    private static BurstForm FormOf(SeasonBurst burst) => new()
    {
        Ram = burst.Ram,
        Hash = Convert.ToHexStringLower(burst.SourceHash),
        Source = burst.Source,
        Start = burst.StartUtc.ToUniversalTime(),
        StartUncertaintyS = burst.StartUncertaintyS,
        DurationS = burst.DurationS,
        State = StoredState.Word(burst.State),
        Completeness = burst.Completeness,
        Figures = burst.Figures.Where(f => double.IsFinite(f.Value.Value)).ToDictionary(
            f => f.Key.Code(), f => (FigureForm?)new FigureForm(f.Value.Value, f.Value.U, f.Value.IsUpperBound ? StoredBound.Upper : null)),
        Conditions = burst.Conditions,
        Beats = BeatPack.Pack(burst.Beats),
    };
}
