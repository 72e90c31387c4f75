namespace Clackbeat.VirtualLogger.Device;

/// <summary>Faults to order. All times are true time since the virtual logger began [s].</summary>
public sealed record VirtualFaults
{
    /// <summary>No faults: the device does as well as the real one.</summary>
    public static VirtualFaults None { get; } = new();

    /// <summary>Extra, random delay of each clock reading, so of each sample: from 0 to this [µs].</summary>
    public double JitterMicroseconds { get; init; }

    /// <summary>Time between stalls, in which the program stands still [s]; null for none.</summary>
    public double? StallEveryS { get; init; }

    /// <summary>Length of a stall [s].</summary>
    public double StallLengthS { get; init; } = 0.005;

    /// <summary>Share of the frames that noise bytes precede, 0 to 1.</summary>
    public double NoiseShare { get; init; }

    /// <summary>Share of the frames in which one bit is flipped, 0 to 1.</summary>
    public double FlippedShare { get; init; }

    /// <summary>Error of the device's crystal [parts per million]; positive runs fast.</summary>
    public double ClockDriftPpm { get; init; }

    /// <summary>Error of the clock that times deep sleep, as a share; positive sleeps too long.</summary>
    public double SleepError { get; init; }

    /// <summary>The line is cut for good at this time [s].</summary>
    public double? CutAtS { get; init; }

    /// <summary>The device loses power for a moment in the middle of a frame at this time [s].</summary>
    public double? RebootAtS { get; init; }

    /// <summary>The device loses power for a moment at this time, whatever it is doing [s].</summary>
    public double? PowerCutAtS { get; init; }

    /// <summary>The converter throws at this time [s]: a fault inside the firmware.</summary>
    public double? ConverterThrowsAtS { get; init; }

    /// <summary>Seed of all that is random here.</summary>
    public int Seed { get; init; } = 1;
}
