using Clackbeat.Logger.Board;
using Clackbeat.Logger.Clock;

namespace Clackbeat.Logger.Tests;

/// <summary>The clock chip against its data sheet (DS3231, Maxim 19-5170 Rev 10), on a fake of its registers.</summary>
public class ClockChipTests
{
    // The data sheet's own example: "if the temperature register is 00011001 01b, the temperature is +25.25 °C".
    [Fact]
    public void TheTemperatureIsThatOfTheDataSheetsExample()
    {
        Registers chip = new();
        (chip[0x11], chip[0x12]) = (0b0001_1001, 0b0100_0000);
        Assert.True(new ClockChip(chip).TryReadTemperature(out int quarters));
        Assert.Equal(25.25, quarters / 4.0);
        (chip[0x11], chip[0x12]) = (0xFF, 0xC0);
        new ClockChip(chip).TryReadTemperature(out quarters);
        Assert.Equal(-0.25, quarters / 4.0);
    }

    // After its first power the chip stands at 01/01/00 01 00:00:00 with its oscillator flag set: that is no time.
    [Fact]
    public void AChipThatWasNeverSetTellsNoTime()
    {
        Registers chip = new();
        Assert.False(new ClockChip(chip).TryRead());
        chip[0x0F] = 0;
        Assert.False(new ClockChip(chip).TryRead());
    }

    // .NET's own calendar stands beside: a leap day, ends of months and years, the day before the chip's century ends.
    [Theory]
    [InlineData("2026-11-29T02:40:07")]
    [InlineData("2028-02-29T23:59:59")]
    [InlineData("2027-12-31T23:59:59")]
    [InlineData("2028-03-01T00:00:00")]
    [InlineData("2099-12-31T12:00:00")]
    public void ATimeComesBackAsItWasSetAndItsRegistersAreDecimal(string time)
    {
        var utc = DateTime.Parse(time, System.Globalization.CultureInfo.InvariantCulture);
        long milliseconds = (long)(utc - DateTime.UnixEpoch).TotalMilliseconds;
        Registers chip = new();
        Assert.True(new ClockChip(chip).TrySet(milliseconds, 500));
        string digits = $"{chip[6]:X2}-{chip[5] & 0x7F:X2}-{chip[4]:X2}T{chip[2]:X2}:{chip[1]:X2}:{chip[0]:X2}";
        Assert.Equal(time[2..], digits);
        Assert.Equal(((int)utc.DayOfWeek + 6) % 7, chip[3] - 1);
        ClockChip read = new(chip);
        Assert.True(read.TryRead());
        Assert.Equal(milliseconds, read.CalendarMilliseconds);
    }

    // Data sheet, hours register: bit 6 is 12-hour mode, bit 5 then is PM. 12 AM is midnight, 12 PM noon.
    [Theory]
    [InlineData(0x40 | 0x12, 0)]
    [InlineData(0x60 | 0x12, 12)]
    [InlineData(0x60 | 0x11, 23)]
    [InlineData(0x40 | 0x09, 9)]
    [InlineData(0x23, 23)]
    public void BothHourModesAreRead(int register, int hour) => Assert.Equal(
        hour * 3_600_000L, ClockChip.MillisecondsOf([0, 0, (byte)register, 1, 1, 1, 0x26]) % 86_400_000);

    // A year at 3.5 parts per million: 31.5 million seconds × 3.5e-6 = 110 s, on the 0.5 s it was told with and the second
    // that is being counted.
    [Fact]
    public void TheUncertaintyGrowsWithTheTimeSinceItWasSet()
    {
        long set = 1_800_000_000_000;
        Registers chip = new();
        ClockChip clock = new(chip);
        Assert.True(clock.TrySet(set, 500));
        Assert.InRange(clock.UncertaintyMilliseconds, 1500, 1520);
        byte[] later = new byte[7];
        ClockChip.RegistersOf(set + 31_500_000_000, later);
        chip.Write(0, later, 7);
        Assert.True(clock.TryRead());
        Assert.InRange(clock.UncertaintyMilliseconds, 111_700, 111_800);
        Assert.InRange(clock.SetMilliseconds, set - 3_600_000, set);
    }

    [Fact]
    public void AStoppedOscillatorOrAMissingChipTellsNoTime()
    {
        Registers chip = new();
        ClockChip clock = new(chip);
        Assert.True(clock.TrySet(1_800_000_000_000, 500));
        chip[0x0F] |= 0x80;
        Assert.False(clock.TryRead());
        Assert.Equal(0, clock.CalendarMilliseconds);
        Assert.False(new ClockChip(new Registers { IsMissing = true }).TrySet(1_800_000_000_000, 500));
    }

    private sealed class Registers : IRegisterBus
    {
        // As after the first power: 01/01/00 01 00:00:00, control 1Ch, status 88h (data sheet, figure 1 and text).
        private readonly byte[] _registers = [0, 0, 0, 1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0x1C, 0x88, 0, 0, 0];

        public bool IsMissing { get; init; }

        public byte this[int register]
        {
            get => _registers[register];
            set => _registers[register] = value;
        }

        public void Read(int register, byte[] buffer, int count)
        {
            Answer();
            Array.Copy(_registers, register, buffer, 0, count);
        }

        public void Write(int register, byte[] bytes, int count)
        {
            Answer();
            Array.Copy(bytes, 0, _registers, register, count);
        }

        private void Answer()
        {
            if (IsMissing)
            {
                throw new IOException("nobody answers at 68h");
            }
        }
    }
}
