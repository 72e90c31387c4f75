using Clackbeat.Logger.Board;

namespace Clackbeat.Logger.Converting;

/// <summary>
/// A converter of its own on the bus: MCP3204, four inputs, 12 bits by successive approximation, within one count of a
/// straight line (Microchip DS21298E). The board's own converter is noisy, bends by a dozen counts and begins at 150 mV;
/// this one counts from 0 V to its reference.
/// </summary>
/// <remarks>
/// Both the sensor's signal and its supply are read against the same reference, so that the reference falls out of a
/// ratiometric sensor's pressure.
/// </remarks>
public sealed class Mcp3204 : IConverterChip
{
    /// <summary>Its largest count.</summary>
    public const int MaxCounts = 4095;

    // Three bytes (data sheet, figure 6-1): five zeros, start bit, single-ended, an input bit that this chip ignores; two
    // input bits and six of no matter; eight of no matter while the result comes.
    private const byte StartSingleEnded = 0b0000_0110;
    private const int InputShift = 6;

    // What comes back in the second byte above the result's upper four bits is undefined, save the null bit before them.
    private const int UpperMask = 0x0F;
    private const int NullBit = 0x10;

    private readonly ISerialChip _chip;
    private readonly byte[] _send = new byte[3];
    private readonly byte[] _receive = new byte[3];

    /// <summary>Makes it over the chip's bus.</summary>
    public Mcp3204(ISerialChip chip)
    {
        _chip = chip;
        _send[0] = StartSingleEnded;
    }

    /// <summary>Converts an input, 0 to 3 [counts, 0 to 4095]; negative when no chip answers.</summary>
    public int Read(int input)
    {
        _send[1] = (byte)(input << InputShift);
        _chip.Transfer(_send, _receive);

        // A line that nobody drives stays high: then the null bit is missing.
        return (_receive[1] & NullBit) != 0 ? -1 : ((_receive[1] & UpperMask) << 8) | _receive[2];
    }
}
