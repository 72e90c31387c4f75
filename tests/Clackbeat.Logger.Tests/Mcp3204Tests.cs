using Clackbeat.Logger.Board;
using Clackbeat.Logger.Converting;

namespace Clackbeat.Logger.Tests;

/// <summary>The external converter against its data sheet (MCP3204, Microchip DS21298E), on a fake of the chip bit by bit.</summary>
public class Mcp3204Tests
{
    // Equation 4-2: digital output code = 4096 × VIN / VREF. 2.25 V at a reference of 3.3 V: 2792.7, so 2792 (the converter
    // rounds down). 0.25 V: 310. Half the reference: 2048.
    [Theory]
    [InlineData(2.25, 2792)]
    [InlineData(0.25, 310)]
    [InlineData(1.65, 2048)]
    [InlineData(0.0, 0)]
    [InlineData(3.3, 4095)]
    public void TheCodeIsThatOfTheDataSheetsEquation(double volts, int code)
    {
        Chip chip = new() { Volts = [0.1, volts, 0.2, 0.3] };
        Assert.Equal(code, new Mcp3204(chip).Read(1));
    }

    // Figure 6-1: the first byte is 0000 011x, the second begins with the input's two bits.
    [Theory]
    [InlineData(0, 0b0000_0000)]
    [InlineData(1, 0b0100_0000)]
    [InlineData(2, 0b1000_0000)]
    [InlineData(3, 0b1100_0000)]
    public void TheBytesSentAreThoseOfTheDataSheetsFigure(int input, int second)
    {
        Chip chip = new();
        new Mcp3204(chip).Read(input);
        Assert.Equal((0b0000_0110, second), (chip.Sent[0] & 0b1111_1110, chip.Sent[1] & 0b1100_0000));
        Assert.Equal(3, chip.Sent.Length);
    }

    [Fact]
    public void EachInputIsReadByItsNumber()
    {
        Chip chip = new() { Volts = [0.33, 0.66, 0.99, 1.32] };
        Mcp3204 converter = new(chip);
        Assert.Equal([409, 819, 1228, 1638], Enumerable.Range(0, 4).Select(converter.Read));
    }

    [Fact]
    public void AChipThatIsMissingGivesNoReading() =>
        Assert.True(new Mcp3204(new Chip { IsMissing = true }).Read(0) < 0);

    /// <summary>The chip as its figure shows it: start bit, single-ended, three input bits, a clock to sample, the null bit, twelve bits.</summary>
    private sealed class Chip : ISerialChip
    {
        private const double ReferenceV = 3.3;

        public double[] Volts { get; init; } = [0, 0, 0, 0];

        public bool IsMissing { get; init; }

        public byte[] Sent { get; private set; } = [];

        public void Transfer(byte[] send, byte[] receive)
        {
            Sent = [.. send];
            string bits = string.Concat(send.Select(b => Convert.ToString(b, 2).PadLeft(8, '0')));
            int start = bits.IndexOf('1', StringComparison.Ordinal);
            Assert.Equal('1', bits[start + 1]);
            int input = Convert.ToInt32(bits.Substring(start + 2, 3), 2);
            int code = Math.Min(4095, (int)(4096 * Volts[input % 4] / ReferenceV));
            string answer = new string('1', start + 6) + "0" + Convert.ToString(code, 2).PadLeft(12, '0');
            answer = IsMissing ? new string('1', 24) : answer.PadRight(24, '1')[..24];
            for (int i = 0; i < receive.Length; i++)
            {
                receive[i] = Convert.ToByte(answer.Substring(8 * i, 8), 2);
            }
        }
    }
}
