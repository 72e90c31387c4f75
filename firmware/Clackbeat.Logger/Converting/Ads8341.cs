using Clackbeat.Logger.Board;

namespace Clackbeat.Logger.Converting;

/// <summary>
/// A converter of its own on the bus: ADS8341, four inputs, 16 bits by successive approximation (Texas Instruments SBAS136D).
/// A count is the reference divided by 65536: 50 µV at 3.3 V, a sixteenth of the 12-bit chip's.
/// </summary>
/// <remarks>
/// Both the sensor's signal and its supply are read against the same reference, so that the reference falls out of a
/// ratiometric sensor's pressure. Between conversions the chip powers down, so it takes next to nothing in sleep.
/// </remarks>
public sealed class Ads8341 : IConverterChip
{
    /// <summary>Its largest count.</summary>
    public const int MaxCounts = 65535;

    // The control byte (data sheet, tables I to V): start bit, three bits of the input, one of no matter, single-ended, two of
    // the power mode. 11 selects the bus's clock as the conversion's and keeps the chip on; 00 powers down after the
    // conversion. Figures 8 and 9 of the data sheet are measured with 00 at a clock from outside: that choice stays. The first conversion after a
    // power-down is valid ("Data Format").
    private const byte StartSingleEnded = 0b1000_0100;
    private const byte ClockFromBus = 0b0000_0011;

    // The first bit behind the control byte belongs to the conversion's start and is low; the result follows at once.
    private const int LeadingBit = 0x80;

    // Inputs 0 to 3 as A2, A1, A0 at their place: 001, 101, 010, 110 (table III).
    private static readonly byte[] Inputs = [0b0001_0000, 0b0101_0000, 0b0010_0000, 0b0110_0000];

    private readonly ISerialChip _chip;
    private readonly byte[] _send = new byte[4];
    private readonly byte[] _receive = new byte[4];
    private int _mode = ClockFromBus;

    /// <summary>Makes it over the chip's bus.</summary>
    public Ads8341(ISerialChip chip)
    {
        _chip = chip;
    }

    /// <inheritdoc/>
    public int Read(int input)
    {
        _send[0] = (byte)(StartSingleEnded | Inputs[input] | _mode);
        _chip.Transfer(_send, _receive);
        _mode = 0;

        // A line that nobody drives stays high.
        return (_receive[1] & LeadingBit) != 0
            ? -1
            : (_receive[1] << 9) | (_receive[2] << 1) | (_receive[3] >> 7);
    }
}
