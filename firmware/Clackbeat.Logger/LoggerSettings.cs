using Clackbeat.Protocol;

namespace Clackbeat.Logger;

/// <summary>How a logger works until a host says otherwise.</summary>
public sealed class LoggerSettings
{
    /// <summary>Version of this firmware.</summary>
    public const int FirmwareMajor = 0;

    /// <summary>Version of this firmware.</summary>
    public const int FirmwareMinor = 1;

    /// <summary>Version of this firmware.</summary>
    public const int FirmwarePatch = 0;

    // The most that a sample of kind 22 carries (SPEC §6).
    private const int NarrowMax = 4095;

    /// <summary>Period of the grid [µs].</summary>
    public int PeriodMicroseconds { get; set; } = 1000;

    /// <summary>Samples to one reading of the sensor's supply; 0 none.</summary>
    public int SupplyEvery { get; set; } = 32;

    /// <summary>Samples to one reading of the delivery pressure; 0 none.</summary>
    public int DeliveryEvery { get; set; }

    /// <summary>Bit n set: channel n is wired.</summary>
    public int ChannelMask { get; set; } = (1 << Channels.Pressure) | (1 << Channels.Supply);

    /// <summary>Largest count of the converter.</summary>
    public int ConverterMax { get; set; } = NarrowMax;

    /// <summary>True when the counts need more than 12 bits, and so frames of wide samples (SPEC §11).</summary>
    public bool IsWide => ConverterMax > NarrowMax;

    /// <summary>Speed of the line [bit/s]; ten bits carry a byte.</summary>
    public int Baud { get; set; } = 115_200;

    /// <summary>Time between reports (hello, time mark, health) while sampling [ms].</summary>
    public int ReportEveryMilliseconds { get; set; } = 10_000;

    /// <summary>True when the logger records by itself while no host speaks.</summary>
    public bool WorksAlone { get; set; }

    /// <summary>Length of a lone burst [ms].</summary>
    public int BurstLengthMilliseconds { get; set; } = 60_000;

    /// <summary>Time from the start of one lone burst to the start of the next [ms].</summary>
    public int BurstIntervalMilliseconds { get; set; } = 3_600_000;

    /// <summary>How long a logger that works alone listens for a host before it begins, after power came [ms].</summary>
    public int ListenMilliseconds { get; set; } = 3_000;

    /// <summary>The same after its own sleep [ms]; short, since it costs battery every time.</summary>
    public int WakeListenMilliseconds { get; set; } = 300;

    /// <summary>Time from switching the sensor's supply on to the first sample of a lone burst [ms].</summary>
    public int SensorSettleMilliseconds { get; set; } = 500;

    /// <summary>
    /// Battery reading below which no burst begins and a running one is closed [counts]; 0 for none.
    /// </summary>
    public int BatteryCutOffCounts { get; set; }

    /// <summary>How long a host may be silent before a logger that works alone goes on by itself [ms].</summary>
    public int HostSilenceMilliseconds { get; set; } = 300_000;

    /// <summary>
    /// The same while it streams to a host [ms]: longer, since a host that only listens need not speak, but not for
    /// ever, since a host that was unplugged doesn't say so and streaming empties the battery.
    /// </summary>
    public int StreamSilenceMilliseconds { get; set; } = 3_600_000;
}
