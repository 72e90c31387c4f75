using Clackbeat.Logger.Board;
using Clackbeat.Logger.Converting;

namespace Clackbeat.Logger.Tests;

/// <summary>
/// The 16-bit converter against its data sheet (ADS8341, Texas Instruments SBAS136D), on a fake of the chip clock by clock.
/// </summary>
public class Ads8341Tests
{
    // "Reference input": a count is the reference divided by 65536. The sheet's example: an offset of 2 counts at 2.5 V becomes 10 counts
    // at 0.5 V, 76 µV either way. Straight binary: half the reference is 8000 hex, one count below it 7FFF, the reference less a
    // count FFFF. The last two by the hardware pages: 0.25 V and 2.25 V at 3.3 V are 4964.8 and 44683.6, and the chip rounds down.
    [Theory]
    [InlineData(2.5, 76.3e-6, 2)]
    [InlineData(0.5, 76.3e-6, 10)]
    [InlineData(2.5, 1.25, 0x8000)]
    [InlineData(2.5, 1.249962, 0x7FFF)]
    [InlineData(2.5, 2.499962, 0xFFFF)]
    [InlineData(2.5, 2.6, 0xFFFF)]
    [InlineData(2.5, 0.0, 0)]
    [InlineData(1.25, 0.625, 0x8000)]
    [InlineData(3.3, 0.25, 4964)]
    [InlineData(3.3, 2.25, 44683)]
    public void TheCodeIsThatOfTheDataSheet(double referenceV, double volts, int code)
    {
        Chip chip = new() { ReferenceV = referenceV, Volts = [volts, 0.1, 0.2, 0.3] };
        Assert.Equal(code, new Ads8341(chip).Read(0));
    }

    // Tables I and III: start, A2 A1 A0, a bit of no matter, single-ended, two of power. Single-ended inputs 0 to 3 are 001, 101, 010, 110.
    // Table V: 11 takes the bus's clock and keeps the chip on, 00 powers down after the conversion.
    [Fact]
    public void TheControlByteIsThatOfTheDataSheetsTables()
    {
        Chip chip = new();
        Ads8341 converter = new(chip);
        foreach (int input in (int[])[0, 0, 1, 2, 3])
        {
            converter.Read(input);
        }

        Assert.Equal([0b1001_0111, 0b1001_0100, 0b1101_0100, 0b1010_0100, 0b1110_0100], chip.Controls);
    }

    [Fact]
    public void EachInputIsReadByItsNumber()
    {
        Chip chip = new() { ReferenceV = 3.3, Volts = [0.33, 0.66, 0.99, 1.32] };
        Ads8341 converter = new(chip);
        Assert.Equal([6553, 13107, 19660, 26214], Enumerable.Range(0, 4).Select(converter.Read));
    }

    [Fact]
    public void AChipThatIsMissingGivesNoReading() => Assert.True(new Ads8341(new Chip { IsMissing = true }).Read(0) < 0);

    /// <summary>
    /// The chip as its figures show it: eight clocks take the control byte, one passes while BUSY falls, sixteen bring the result, highest
    /// bit first, and zeros follow. The Linux kernel's driver of its sister ADS8344 takes the result from the same three bytes.
    /// </summary>
    private sealed class Chip : ISerialChip
    {
        private static readonly Dictionary<int, int> InputOf = new() { [0b001] = 0, [0b101] = 1, [0b010] = 2, [0b110] = 3 };

        private bool _hasClock;

        public double ReferenceV { get; init; } = 2.5;

        public double[] Volts { get; init; } = [0, 0, 0, 0];

        public bool IsMissing { get; init; }

        public List<int> Controls { get; } = [];

        public void Transfer(byte[] send, byte[] receive)
        {
            if (IsMissing)
            {
                Array.Fill(receive, (byte)0xFF);
                return;
            }

            int control = send[0];
            Controls.Add(control);
            Assert.True((control & 0x80) != 0, "no start bit");
            Assert.True((control & 0b100) != 0, "differential");
            Assert.Equal((0, 0, 0), (send[1], send[2], send[3]));
            _hasClock |= (control & 0b11) == 0b11;
            Assert.True(_hasClock && (control & 0b11) is 0b11 or 0b00, "the conversion has no clock");
            double counts = 65536 * Volts[InputOf[(control >> 4) & 0b111]] / ReferenceV;
            int code = (int)Math.Clamp(Math.Floor(counts + 1e-3), 0, 65535);
            string bits = "00000000" + "0" + Convert.ToString(code, 2).PadLeft(16, '0') + "0000000";
            for (int i = 0; i < receive.Length; i++)
            {
                receive[i] = Convert.ToByte(bits.Substring(8 * i, 8), 2);
            }
        }
    }
}
