using Clackbeat.Logger;
using Clackbeat.VirtualLogger.Device;

namespace Clackbeat.VirtualLogger;

/// <summary>How fast a virtual logger's clock runs.</summary>
public enum Pace
{
    /// <summary>As time runs. Bytes that nobody reads are lost, as on a real line.</summary>
    RealTime,

    /// <summary>As fast as the reader takes the bytes; a minute's record takes a moment, and nothing is lost.</summary>
    AsFastAsRead,
}

/// <summary>How a virtual logger is made.</summary>
public sealed record VirtualLoggerOptions
{
    /// <summary>How fast its clock runs.</summary>
    public Pace Pace { get; init; } = Pace.RealTime;

    /// <summary>Faults to order.</summary>
    public VirtualFaults Faults { get; init; } = VirtualFaults.None;

    /// <summary>The firmware's settings.</summary>
    public LoggerSettings Settings { get; init; } = new();

    /// <summary>The device's own id: eight letters.</summary>
    public string DeviceId { get; init; } = "virtual1";

    /// <summary>Folder that stands for the card of a lone logger; null for no card.</summary>
    public string? CardFolder { get; init; }

    /// <summary>Room on that card [bytes]; null for no limit.</summary>
    public long? CardBytes { get; init; }
}
