using Clackbeat.Hydraulics.Water;
using Clackbeat.Sensing.Conditioning;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Sensing.Power;
using Clackbeat.Sensing.Tapping;

namespace Clackbeat.Checks.Sensing;

/// <summary>Conditioning, tap line, speed and battery against published worked figures.</summary>
public class ConditioningChecks
{
    private static readonly WaterProperties Cool = WaterProperties.At(20);

    [Fact]
    public void A_twelve_bit_converter_of_3V3_has_the_published_step_and_noise()
    {
        // 12 bits over 3.3 V: a step of 0.806 mV, its rounding 0.233 mV rms, ideal ratio 74.0 dB (a converter primer).
        Converter converter = new() { ZeroV = 0, FullScaleV = 3.3 * 4095 / 4096, MaxCounts = 4095 };
        Assert.Equal(0.806e-3, converter.StepV, 0.5e-6);
        Assert.Equal(0.233e-3, converter.StepV / Math.Sqrt(12), 0.5e-6);
        double signalRms = 3.3 / 2 / Math.Sqrt(2);
        Assert.Equal(74.0, 20 * Math.Log10(signalRms / (converter.StepV / Math.Sqrt(12))), 0.05);
    }

    // Ten samples a cycle miss about 5 % of a crest at worst (endaq.com, sampling rules); the others from the same 1 - cos(pi/n).
    [Theory]
    [InlineData(10, 0.05, 0.002)]
    [InlineData(5, 0.191, 0.0005)]
    [InlineData(20, 0.0123, 0.00005)]
    [InlineData(50, 0.0020, 0.00005)]
    public void A_crest_between_samples_loses_the_published_share(double perCycle, double loss, double within) =>
        Assert.Equal(loss, Sampling.WorstCrestLoss(perCycle), within);

    [Fact]
    public void Rise_and_bandwidth_follow_the_rule_of_0_35() =>
        // BW = 0.35/tr, the rule of every oscilloscope's handbook: 1 ms is 350 Hz.
        Assert.Equal(350, Sampling.BandwidthHz(1e-3), 0.5);

    // An instrument of a third of the signal's rise shows it about 5 % long, of a seventh 1 % (a published rule; 5.4 % by the root).
    [Theory]
    [InlineData(3, 0.05, 0.005)]
    [InlineData(7, 0.01, 0.0005)]
    public void A_slower_instrument_stretches_a_rise_by_the_published_share(double times, double stretch, double within) =>
        Assert.Equal(stretch, Sampling.ShownRiseS(1, 1 / times) - 1, within);

    [Fact]
    public void A_sensor_that_rings_at_1200_Hz_with_half_damping_has_a_natural_frequency_of_1386_Hz() =>
        Assert.Equal(1386, Sampling.NaturalHz(1200, 0.5), 0.5);

    // Quarter wave c/(4L) with c = 1480 m/s, worked by hand: 0.1 m 3700 Hz, 0.3 m 1233, 1 m 370, 3 m 123.
    [Theory]
    [InlineData(0.1, 3700)]
    [InlineData(0.3, 1233)]
    [InlineData(1, 370)]
    [InlineData(3, 123)]
    public void A_full_tap_line_rings_in_a_quarter_wave(double lengthM, double hertz) =>
        Approximately.Equal(hertz, new TapLine(lengthM, 4e-3).QuarterWaveHz(Cool), 0.005);

    // A 4 mm line of 1 m with 1 mL of air at 160 kPa absolute rings at 8.4 Hz, with 1.6 mL at 6.7 Hz, a period of 150 ms,
    // as seen in a laboratory's ram (worked from the formula by an independent script; the 150 ms are from the record).
    [Theory]
    [InlineData(1.0, 8.4)]
    [InlineData(1.6, 6.7)]
    public void A_bubble_brings_the_line_down_to_what_was_seen(double millilitres, double hertz)
    {
        TapLine line = new(1, 4e-3);
        Assert.Equal(hertz, line.BubbleHz(Cool, millilitres * 1e-6, 160e3), 0.06);
        Assert.Equal(millilitres * 1e-6, line.BubbleForM3(Cool, hertz, 160e3), 0.03e-6);
    }

    [Fact]
    public void A_chamber_as_stiff_as_a_bubble_rings_like_it()
    {
        // Water of volume V has the stiffness K/V, a bubble n p/V': equal where V = V' K/(n p). A law, not a figure.
        TapLine line = new(0.2, 6e-3);
        double chamberM3 = 1e-8 * Cool.BulkModulusPa / (TapLine.BubbleExponent * 300e3);
        Approximately.Equal(line.BubbleHz(Cool, 1e-8, 300e3), line.HelmholtzHz(Cool, chamberM3), 1e-6);
    }

    [Fact]
    public void A_divider_is_off_by_its_corners()
    {
        // 10 k over 10 k of 1 %: 10.1/(9.9 + 10.1) = 0.505, so 1 % at worst and 0.71 % likely (by hand).
        Divider half = new(10e3, 10e3);
        Assert.Equal(0.5, half.Share, 1e-12);
        Assert.Equal(0.01, half.WorstErrorShare(0.01), 1e-12);
        Assert.Equal(0.00707, half.LikelyErrorShare(0.01), 0.00001);
        Assert.Equal(5e3, half.SourceOhm, 1e-9);
        // Under a load of 100 k: (10 ∥ 100)/(10 + 10 ∥ 100) = 9.0909/19.0909 = 0.47619 (by hand).
        Assert.Equal(0.47619, half.ShareUnderLoad(100e3), 0.00001);
    }

    [Fact]
    public void A_loop_needs_the_supply_that_its_parts_add_up_to()
    {
        // 100 ohm at 20 mA: 2.0 V and 40 mW. 8 V for the transmitter and 100 + 10 ohm at 21.5 mA: 10.4 V (by hand).
        Shunt shunt = new(100);
        Assert.Equal(2.0, shunt.VoltsAt(0.020), 1e-12);
        Assert.Equal(0.040, shunt.PowerWAt(0.020), 1e-12);
        Assert.Equal(10.365, shunt.LeastSupplyV(8, 10), 1e-9);
    }

    [Fact]
    public void A_filter_has_the_textbook_corner_and_settles_in_five_time_constants()
    {
        // 1 k and 100 nF: 1592 Hz; 0.7 % is missing after five time constants (any textbook of electronics).
        LowPass filter = new(1e3, 100e-9);
        Assert.Equal(1592, filter.CornerHz, 0.5);
        Assert.Equal(1 / Math.Sqrt(2), filter.GainAt(filter.CornerHz), 1e-12);
        Assert.Equal(5, filter.SettlingS(Math.Exp(-5)) / filter.TimeConstantS, 1e-12);
        Assert.Equal(Sampling.BandwidthHz(filter.RiseS), filter.CornerHz, 1e-6);
    }

    [Fact]
    public void A_long_spike_passes_a_filter_and_a_short_one_does_not()
    {
        // Limits of the exact response: a spike that is long against RC passes whole; one far shorter leaves its area over RC,
        // 2 T/(pi RC).
        LowPass filter = new(10e3, 100e-9);
        Assert.Equal(1, filter.SpikePassed(1), 1e-4);
        Approximately.Equal(2 * 1e-6 / (Math.PI * 1e-3), filter.SpikePassed(1e-6), 0.002);
    }

    [Fact]
    public void A_swing_beyond_half_the_rate_folds_back()
    {
        // 900 Hz at 1000 samples a second shows as 100 Hz (Shannon).
        Assert.Equal(100, Sampling.AliasHz(900, 1000), 1e-9);
        Assert.Equal(300, Sampling.AliasHz(300, 1000), 1e-9);
        Assert.Equal(50, Sampling.AliasHz(2050, 1000), 1e-9);
    }

    [Fact]
    public void A_battery_lasts_as_long_as_its_charge()
    {
        // By hand: 90 mA for 60 s of each hour and 1 mA else: (90*60 + 1*3540)/3600 = 2.483 mA, 59.6 mAh a day;
        // 80 % of 10 Ah are 134.2 days.
        EnergyBudget budget = new() { AwakeA = 0.09, AsleepA = 0.001, BurstS = 60, IntervalS = 3600, OverheadS = 0 };
        Assert.Equal(2.483e-3, budget.MeanA, 0.5e-6);
        Assert.Equal(134.2, budget.Days(36e3, 0.8), 0.05);
        // 59.6 mAh a day at 12 V are 0.715 Wh; an hour of sun of which half arrives wants 1.43 W.
        Assert.Equal(1.43, budget.PanelW(12, 1, 0.5), 0.005);
    }
}
