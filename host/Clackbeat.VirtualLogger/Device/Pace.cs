namespace Clackbeat.VirtualLogger.Device;

/// <summary>How fast a virtual logger's clock runs.</summary>
public enum Pace
{
    /// <summary>As time runs. Bytes that nobody reads are lost, as on a real line.</summary>
    RealTime,

    /// <summary>As fast as the reader takes the bytes; a minute's record takes a moment, and nothing is lost.</summary>
    AsFastAsRead,
}
