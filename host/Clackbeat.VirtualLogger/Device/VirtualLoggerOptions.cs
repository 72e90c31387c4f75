using Clackbeat.Logger;

namespace Clackbeat.VirtualLogger.Device;

/// <summary>How a virtual logger is made.</summary>
public sealed record VirtualLoggerOptions
{
    /// <summary>How fast its clock runs.</summary>
    public Pace Pace { get; init; } = Pace.RealTime;

    /// <summary>Faults to order.</summary>
    public VirtualFaults Faults { get; init; } = VirtualFaults.None;

    /// <summary>What the device's clock is charged with.</summary>
    public DeviceCharges Charges { get; init; } = DeviceCharges.Inferred;

    /// <summary>The firmware's settings.</summary>
    public LoggerSettings Settings { get; init; } = new();

    /// <summary>The device's own id: eight letters.</summary>
    public string DeviceId { get; init; } = "virtual1";

    /// <summary>Time from the sensor's supply being switched on until it tells the pressure [s]; before it tells nothing true.</summary>
    public double SensorSettlesS { get; init; }

    /// <summary>Told whether the sensor has its supply whenever the device goes to sleep.</summary>
    public Action<bool>? SensorInSleep { get; init; }

    /// <summary>A battery-backed clock chip is fitted.</summary>
    public bool HasClockChip { get; init; }

    /// <summary>What that chip was set to when the virtual logger began [ms since 1970-01-01 UTC]; 0 for never set.</summary>
    public long ClockSetMilliseconds { get; init; }

    /// <summary>Folder that stands for the card of a lone logger; null for no card.</summary>
    public string? CardFolder { get; init; }

    /// <summary>The card itself, in place of a folder's name; null for none.</summary>
    public FolderCard? Card { get; init; }

    /// <summary>Room on that card [bytes]; null for no limit.</summary>
    public long? CardBytes { get; init; }
}
