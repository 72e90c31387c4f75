using Clackbeat.Season.Store;

namespace Clackbeat.Season.Packets;

/// <summary>What one computer sends another at once: bursts as a store keeps them, and marks. docs/intake.md describes its form.</summary>
/// <param name="Bursts">The bursts, of one or several rams.</param>
/// <param name="Marks">The marks.</param>
public sealed record BurstPacket(IReadOnlyList<SeasonBurst> Bursts, IReadOnlyList<MaintenanceMark> Marks)
{
    /// <summary>Names of its rams.</summary>
    public IEnumerable<string> Rams => Bursts.Select(b => b.Ram).Concat(Marks.Select(m => m.Ram)).Distinct();
}

/// <summary>The sizes beyond which a packet is refused, before memory is taken for it.</summary>
public static class PacketLimits
{
    /// <summary>Most bytes on the line.</summary>
    public const int Bytes = 2_000_000;

    /// <summary>Most bytes once decompressed.</summary>
    public const int PlainBytes = 16_000_000;

    /// <summary>Most bursts.</summary>
    public const int Bursts = 200;

    /// <summary>Most marks.</summary>
    public const int Marks = 1000;

    /// <summary>Most beats of all bursts together.</summary>
    public const int Beats = 300_000;

    /// <summary>Most characters of a ram's name.</summary>
    public const int RamName = 200;

    /// <summary>Most characters of any other text.</summary>
    public const int Text = 1000;
}
