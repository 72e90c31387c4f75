namespace Clackbeat.VirtualLogger.Device;

/// <summary>
/// What the virtual device's clock is charged with. Left as they are, these are inferences from the runtime's sources:
/// nobody has measured them on a board. The firmware's command "bench" measures them, and its figures go in here.
/// </summary>
public sealed record DeviceCharges
{
    /// <summary>Charges as inferred.</summary>
    public static DeviceCharges Inferred { get; } = new();

    /// <summary>One conversion [µs].</summary>
    public double ConversionUs { get; init; } = 150;

    /// <summary>One reading of the clock [µs].</summary>
    public double ClockReadUs { get; init; } = 8;

    /// <summary>Handing a frame to the transmitter, beside what does not fit into it [µs].</summary>
    public double SendUs { get; init; } = 60;

    /// <summary>Asking for received bytes [µs].</summary>
    public double ReceiveUs { get; init; } = 15;

    /// <summary>Bytes that the transmitter takes at once; what is beyond waits for the line.</summary>
    public int TransmitterBytes { get; init; } = 128;

    /// <summary>Time of a byte on the line [µs]: ten bits at 115,200 bit/s.</summary>
    public double ByteUs { get; init; } = 86.8;

    /// <summary>
    /// One instruction of the interpreter [µs]. It counts only with <see cref="Instructions"/>; without it the program
    /// between two calls to the board takes no time.
    /// </summary>
    public double InstructionUs { get; init; }

    /// <summary>Instructions that the program has carried out so far; null where nobody counts them.</summary>
    public Func<long>? Instructions { get; init; }

    /// <summary>Writing one sector of 512 bytes to the card [µs].</summary>
    public double SectorUs { get; init; }

    /// <summary>A write that takes much longer comes once in so many writes, as cards tidy up; 0 for never.</summary>
    public int SlowWriteEvery { get; init; }

    /// <summary>How long such a write takes [µs].</summary>
    public double SlowWriteUs { get; init; }
}
