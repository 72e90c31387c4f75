namespace Clackbeat.Protocol;

/// <summary>The protocol this code speaks (SPEC §3).</summary>
public static class ProtocolVersion
{
    /// <summary>Version.</summary>
    public const int Number = 1;

    /// <summary>CRC-32 of the layout block of SPEC §4; a test compares it with the page.</summary>
    public const uint Fingerprint = 0xADC96700;

    /// <summary>Shortest period that may be asked for [µs].</summary>
    public const int MinPeriodMicroseconds = 200;

    /// <summary>Longest period that may be asked for [µs].</summary>
    public const int MaxPeriodMicroseconds = 1_000_000;

    /// <summary>Stands for "not measured" or "as set" in a 16-bit field.</summary>
    public const int NotGiven16 = 0xFFFF;

    /// <summary>Stands for "unknown" in a 32-bit field.</summary>
    public const uint Unknown32 = 0xFFFFFFFF;
}
