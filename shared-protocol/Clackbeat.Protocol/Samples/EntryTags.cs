namespace Clackbeat.Protocol.Samples;

/// <summary>Entries of a samples frame other than the ordinary sample (SPEC §6). The upper four bits are the length.</summary>
public static class EntryTags
{
    /// <summary>A reading of channel n is tagged with this plus n.</summary>
    public const byte Channel = 0x20;

    /// <summary>The grid's period.</summary>
    public const byte Period = 0x32;

    /// <summary>Grid points without a sample.</summary>
    public const byte Skip = 0x41;

    /// <summary>A sample whose deviation needs more room.</summary>
    public const byte Late = 0x61;

    /// <summary>Time of the first grid point.</summary>
    public const byte Base = 0x71;

    /// <summary>In a frame of wide samples a reading of channel n is tagged with this plus n.</summary>
    public const byte WideChannel = 0x38;

    /// <summary>A wide sample whose deviation needs more room.</summary>
    public const byte WideLate = 0x72;

    /// <summary>Largest number of points one skip can carry.</summary>
    public const int MaxSkip = (1 << 21) - 1;

    /// <summary>Half the span of an ordinary sample's deviation [µs]: from −256 to 255.</summary>
    public const int NearSpan = 256;

    /// <summary>Half the span of an ordinary wide sample's deviation [µs]: from −2048 to 2047.</summary>
    public const int WideNearSpan = 2048;

    /// <summary>Half the span of a late sample's deviation [µs].</summary>
    public const int FarSpan = 1 << 27;
}
