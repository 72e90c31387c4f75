using Clackbeat.Sensing.Conversion;

namespace Clackbeat.Checks.Sensing;

/// <summary>Signals of transmitters against published worked figures.</summary>
public class SignalChecks
{
    private const double Psi = Units.PsiPa;

    // A converter that reads volts as they are: one count a microvolt.
    private static readonly Converter Meter = new() { ZeroV = 0, FullScaleV = 10, MaxCounts = 10_000_000, UsableLowV = 0, UsableHighV = 10 };

    // Ratiometric 10 to 90 % of the supply, P = Pmin + (V/Vs - 0.1)/0.8 (Pmax - Pmin): Texas Instruments SBOU024C. The
    // figures are worked from that formula by hand: 2.4 V at 4.8 V is the same half as 2.5 V at 5 V.
    [Theory]
    [InlineData(2.5, 5.0, 50.0)]
    [InlineData(2.4, 4.8, 50.0)]
    [InlineData(0.5, 5.0, 0.0)]
    [InlineData(4.5, 5.0, 100.0)]
    public void A_ratiometric_sensor_is_read_against_its_supply(double signalV, double supplyV, double psi)
    {
        SignalPath path = new() { RangeLowPa = 0, RangeHighPa = 100 * Psi, SignalGain = 1, SupplyGain = 1, Converter = Meter };
        Assert.Equal(psi, path.PressurePaAt(Meter.CountsAt(signalV), Meter.CountsAt(supplyV)) / Psi, 1e-3);
    }

    [Fact]
    public void Without_the_supply_the_same_reading_is_off_by_five_per_cent()
    {
        // 2.4 V read as if the supply were 5.0 V: 47.5 psi (worked from the same formula).
        SignalPath path = new() { RangeLowPa = 0, RangeHighPa = 100 * Psi, SignalGain = 1, Converter = Meter };
        Assert.Equal(47.5, path.PressurePaAt(Meter.CountsAt(2.4)) / Psi, 1e-3);
    }

    // A transmitter of 50 to 250 psig at 150 psig gives 12.0 mA: ISA (International Society of Automation), Interchange blog.
    // The shunts: 250 ohm gives 1.0 to 5.0 V, 100 ohm 0.4 to 2.0 V (sensorsone.com, table of shunt resistors).
    [Theory]
    [InlineData(150, 1000, 12.0)]
    [InlineData(50, 250, 1.0)]
    [InlineData(250, 250, 5.0)]
    [InlineData(50, 100, 0.4)]
    [InlineData(250, 100, 2.0)]
    public void A_current_loop_gives_the_published_voltage_on_a_shunt(double psi, double shuntOhm, double volts)
    {
        SignalPath path = Loop(50, 250, shuntOhm);
        Assert.Equal(volts, path.VoltsAt(psi * Psi), 1e-9);
        Assert.Equal(psi, path.PressurePaAt(Meter.CountsAt(volts)) / Psi, 1e-3);
    }

    [Fact]
    public void An_open_loop_reads_below_the_range()
    {
        // 0 to 15 psi on 250 ohm is 3.75 psi a volt with an offset of -3.75 psi (a forum's worked figures, confirmed by hand).
        SignalPath path = Loop(0, 15, 250);
        Assert.Equal(-3.75, path.PressurePaAt(Meter.CountsAt(0)) / Psi, 1e-3);
        Assert.Equal(3.75, (path.PressurePaAt(Meter.CountsAt(2)) - path.PressurePaAt(Meter.CountsAt(1))) / Psi, 1e-3);
    }

    [Fact]
    public void A_count_of_a_ten_bit_converter_is_twelve_millibar_of_ten_bar()
    {
        // 5 V over 1024 steps is 4.883 mV; 0.5 to 4.5 V over 10 bar makes that 12.2 mbar (worked by hand).
        Converter tenBits = new() { ZeroV = 0, FullScaleV = 5.0 * 1023 / 1024, MaxCounts = 1023 };
        SignalPath path = new() { RangeLowPa = 0, RangeHighPa = 1e6, SignalGain = 1, Converter = tenBits };
        Assert.Equal(4.883e-3, tenBits.StepV, 0.5e-6);
        Assert.Equal(1220, path.StepPa, 5.0);
    }

    private static SignalPath Loop(double lowPsi, double highPsi, double shuntOhm) => new()
    {
        RangeLowPa = lowPsi * Psi,
        RangeHighPa = highPsi * Psi,
        Output = SensorOutput.FourToTwentyMilliamperes,
        SignalGain = shuntOhm,
        Converter = Meter,
    };
}
