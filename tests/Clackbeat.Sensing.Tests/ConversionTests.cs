using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using CsCheck;

namespace Clackbeat.Sensing.Tests;

public class ConversionTests
{
    private static readonly Gen<SignalPath> Paths =
        from low in Gen.Double[-100e3, 0]
        from span in Gen.Double[50e3, 4e6]
        from output in Gen.OneOf(
            Gen.Const(SensorOutput.RatiometricHalfToFourAndAHalfVolts),
            Gen.Const(SensorOutput.FourToTwentyMilliamperes),
            Gen.Const(new SensorOutput(SignalKind.Voltage, 1, 5, false)))
        from share in Gen.Double[0.2, 1]
        select new SignalPath
        {
            RangeLowPa = low,
            RangeHighPa = low + span,
            Output = output,
            SignalGain = output.Kind == SignalKind.Current ? 150 * share : share,
        };

    [Fact]
    public void Counts_lead_back_to_the_pressure_whatever_the_supply_does() =>
        Gen.Select(Paths, Gen.Double[-0.2, 1.2], Gen.Double[4.5, 5.5]).Sample((path, share, supplyV) =>
        {
            double pressurePa = path.RangeLowPa + (share * path.SpanPa);
            double read = path.PressurePaAt(path.CountsAt(pressurePa, supplyV), path.SupplyCountsAt(supplyV));
            Assert.Equal(pressurePa, read, 1e-9 * path.SpanPa);
        });

    [Fact]
    public void A_step_is_what_one_count_more_makes() => Paths.Sample(path =>
        Assert.Equal(path.StepPa, path.PressurePaAt(1001) - path.PressurePaAt(1000), 1e-9 * path.SpanPa));

    [Fact]
    public void The_usable_pressures_are_those_whose_voltage_lies_in_the_window() => Paths.Sample(path =>
    {
        foreach (double pressurePa in new[] { path.UsablePa.Low, path.UsablePa.High })
        {
            Assert.InRange(pressurePa, path.RangeLowPa - 1e-3, path.RangeHighPa + 1e-3);
        }

        if (path.UsablePa.High > path.UsablePa.Low)
        {
            Assert.InRange(path.VoltsAt(path.UsablePa.Low), 0.150 - 1e-9, 2.450 + 1e-9);
            Assert.InRange(path.VoltsAt(path.UsablePa.High), 0.150 - 1e-9, 2.450 + 1e-9);
        }
    });

    [Fact]
    public void A_sensor_that_does_not_follow_its_supply_does_not_heed_it()
    {
        SignalPath loop = new()
        {
            RangeLowPa = 0,
            RangeHighPa = 1e6,
            Output = SensorOutput.FourToTwentyMilliamperes,
            SignalGain = 100,
        };
        Assert.Equal(loop.PressurePaAt(1500), loop.PressurePaAt(1500, loop.SupplyCountsAt(4.2)), 1e-6);
    }

    [Theory]
    [InlineData(0, true)]
    [InlineData(1, false)]
    [InlineData(4094, false)]
    [InlineData(4095, true)]
    public void A_sample_at_an_end_of_the_converter_is_clipped(int counts, bool clipped) => Assert.Equal(
        clipped, SensorConversion.Nominal(new SignalPath { RangeLowPa = 0, RangeHighPa = 1e6 }).IsClipped(counts));
}
