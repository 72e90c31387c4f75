namespace Clackbeat.Protocol.Framing;

/// <summary>Sizes of a frame (SPEC §1) [bytes].</summary>
public static class FrameLimits
{
    /// <summary>A whole frame with both delimiters.</summary>
    public const int MaxFrame = 120;

    /// <summary>The body: its kind and its fields.</summary>
    public const int MaxBody = 113;

    /// <summary>The CRC behind the body.</summary>
    public const int CrcLength = 4;

    /// <summary>Between two delimiters: one byte of stuffing, body, CRC.</summary>
    public const int MaxContent = 1 + MaxBody + CrcLength;
}
