using Clackbeat.Sensing.Choosing;
using Clackbeat.Sensing.Conditioning;

namespace Clackbeat.Checks.Sensing;

/// <summary>What a buyer is told, against standards and hand calculation. A wrong figure here bursts a sensor.</summary>
public class ChoosingChecks
{
    // EN 837-1:1996, table 1: 1 … 16, 25, 40 bar. A ceiling of 18.6 bar is the case that went wrong: 1 bar was advised.
    [Theory]
    [InlineData(18.6e5, 25e5)]
    [InlineData(16e5, 16e5)]
    [InlineData(16.01e5, 25e5)]
    [InlineData(0.3e5, 0.6e5)]
    public void The_range_to_buy_is_the_next_usual_one_at_or_above_the_ceiling(double ceilingPa, double rangePa) =>
        Assert.Equal(rangePa, SensorChoice.RangePa(ceilingPa));

    [Fact]
    public void No_range_is_named_for_a_pressure_that_no_usual_sensor_bears() => Assert.Null(SensorChoice.RangePa(2000e5));

    // Measured rams reach 4.9 times their delivery pressure, so the multiple is 5: 2.4 bar × 5 = 12 bar, next 16 bar.
    [Fact]
    public void Without_a_ceiling_five_times_the_delivery_pressure_is_taken()
    {
        Assert.Equal(5, SensorChoice.TimesDelivery);
        Assert.Equal(16e5, SensorChoice.RangeFromDeliveryPa(2.4e5));
    }

    // 50 × 60 × 24 × 365.25 = 26.3 million.
    [Fact]
    public void Fifty_beats_a_minute_are_twenty_six_million_pressure_cycles_a_year() =>
        Assert.Equal(26.3e6, SensorChoice.CyclesPerYear(50), 0.05e6);

    // ISO 2533:1975, table: 84.556 kPa at 1500 m, 101.325 kPa at sea level.
    [Fact]
    public void A_sealed_gauge_is_seventeen_kilopascals_off_at_1500_metres() =>
        Assert.Equal(101_325 - 84_556, SensorChoice.SealedGaugeErrorPa(1500), 10.0);

    // log2(4 V × 0.5 / 0.8056 mV / (3 √12)) = log2(2482.6/10.392) = log2(238.9) = 7.90 (by hand).
    [Fact]
    public void Three_counts_of_noise_leave_eight_bits() =>
        Assert.Equal(7.90, Noise.EffectiveBits(2482.6, 3), 0.005);

    // 12 V on 100 ohm: 120 mA and 1.44 W (Ohm's law), six times what a quarter-watt resistor bears.
    [Fact]
    public void A_shorted_loop_puts_its_whole_supply_on_the_shunt()
    {
        Assert.Equal(0.120, new Shunt(100).ShortedA(12), 1e-12);
        Assert.Equal(1.44, new Shunt(100).ShortedW(12), 1e-12);
    }

    // 8 V + (100 + 10 + 2.5 ohm) × 21.5 mA + 0.4 V = 10.82 V; with a fuse of 7.5 ohm and 0.7 V: 11.23 V (by hand).
    [Theory]
    [InlineData(12.5, 0.4, 10.82)]
    [InlineData(17.5, 0.7, 11.23)]
    public void The_loop_supply_counts_fuse_and_diode(double seriesOhm, double diodeV, double supplyV) =>
        Assert.Equal(supplyV, new Shunt(100).LeastSupplyV(8, seriesOhm, diodeV), 0.005);

    /// <summary>An independent way to the same: the two lags stepped through in small steps of time.</summary>
    [Theory]
    [InlineData(1e-3, 1e-3, 9.7e3)]
    [InlineData(2e-3, 1e-3, 9.7e3)]
    [InlineData(1e-3, 5e-3, 4.8e3)]
    public void A_spike_behind_sensor_and_filter_agrees_with_a_stepwise_integration(double lengthS, double riseS, double ohm)
    {
        LowPass filter = new(ohm, 22e-9);
        SpikeSeen seen = new(lengthS, riseS, filter);
        double step = lengthS / 20_000;
        double first = 0, second = 0, highest = 0;
        double sensorS = riseS / Math.Log(9);
        for (double t = 0; t < 4 * lengthS; t += step)
        {
            double input = t < lengthS ? Math.Sin(Math.PI * t / lengthS) : 0;
            first += (input - first) * step / sensorS;
            second += (first - second) * step / filter.TimeConstantS;
            highest = Math.Max(highest, second);
        }

        Assert.Equal(highest, seen.AtThePin, 1e-3);
        Assert.InRange(seen.Sampled(1 / lengthS).Low, 0, seen.AtThePin);
    }

    // Sampling so fast that no crest falls between two samples shows what the pin sees.
    [Fact]
    public void Fast_samples_miss_nothing_of_what_the_pin_sees()
    {
        SpikeSeen seen = new(2e-3, 1e-3, new LowPass(9.7e3, 22e-9));
        Assert.Equal(seen.AtThePin, seen.Sampled(100_000).Low, 1e-3);
    }
}
