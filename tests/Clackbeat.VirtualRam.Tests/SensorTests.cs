using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>The sensor answers a step as any second-order system does (textbook: overshoot e^(−πζ/√(1−ζ²)) at t = π/ω_d).</summary>
public class SensorTests
{
    [Theory]
    [InlineData(0.2, 0.526621)]
    [InlineData(0.5, 0.163034)]
    [InlineData(0.7, 0.045988)]
    public void A_step_overshoots_by_the_textbooks_share(double damping, double overshoot)
    {
        var response = new SecondOrderResponse(1000, damping, 1e-6, 0);
        // The input climbs in one step of a microsecond, a thousandth of the sensor's period.
        double highest = 0.0;
        double last = 0.0;
        for (int i = 0; i < 20_000; i++)
        {
            last = response.Next(1);
            highest = Math.Max(highest, last);
        }

        Assert.Equal(1 + overshoot, highest, 0.002);
        Assert.Equal(1, last, 1e-6);
    }

    [Fact]
    public void At_its_natural_frequency_it_passes_one_over_twice_the_damping()
    {
        var response = new SecondOrderResponse(200, 0.4, 1e-5, 0);
        double highest = 0.0;
        for (int i = 0; i < 50_000; i++)
        {
            double y = response.Next(Math.Sin(2 * Math.PI * 200 * i * 1e-5));
            highest = i > 25_000 ? Math.Max(highest, y) : 0;
        }

        Assert.Equal(1 / (2 * 0.4), highest, 0.002);
    }

    [Theory]
    [InlineData(0, 410)]
    [InlineData(1e6, 3686)]
    [InlineData(0.5e6, 2048)]
    [InlineData(5e6, 4095)]
    [InlineData(-5e6, 0)]
    public void Counts_stand_at_ten_and_ninety_per_cent_of_a_ratiometric_converter(double pressurePa, int counts) =>
        Assert.Equal(counts, Chain(new SensorParameters { RangeLowPa = 0, RangeHighPa = 1e6, NoisePa = 0 }).Read(pressurePa));

    [Fact]
    public void A_reading_is_never_off_by_more_than_half_a_count()
    {
        SensorChain chain = Chain(new SensorParameters { RangeLowPa = 0, RangeHighPa = 1e6, NoisePa = 0 });
        for (double pressure = -1e5; pressure < 1.1e6; pressure += 777)
        {
            Assert.InRange(chain.PressurePa(chain.Read(pressure)) - pressure, -0.5e6 / 3276, 0.5e6 / 3276);
        }
    }

    [Fact]
    public void Noise_has_the_spread_it_was_given_and_offset_and_gain_add_up()
    {
        SensorChain chain = Chain(new SensorParameters
        {
            RangeLowPa = 0,
            RangeHighPa = 1e6,
            NoisePa = 2000,
            OffsetPa = 6000,
            Gain = 1.02,
        });
        double[]? readings = Enumerable.Range(0, 20_000).Select(_ => chain.PressurePa(chain.Read(3e5))).ToArray();
        double mean = readings.Average();
        Assert.Equal(1.02 * 3e5 + 6000, mean, 60.0);
        Assert.Equal(2000, Math.Sqrt(readings.Average(r => (r - mean) * (r - mean))), 60.0);
    }

    private static SensorChain Chain(SensorParameters sensor) => new(sensor, Fault.None, seed: 2);
}
