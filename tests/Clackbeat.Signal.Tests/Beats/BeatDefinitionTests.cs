using Clackbeat.Signal.Beats;
using static Clackbeat.Signal.Tests.Beats.DrawnRam;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>What a beat is made of, on a drawn ram, each figure worked out by hand from its definition in docs and on <see cref="Beat"/>.</summary>
public class BeatDefinitionTests
{
    // From the last open sample at 2 kPa to the first at 200 kPa the middle of the rise lies half a step before the latter. Nothing
    // stands above the plateau, so the spike is that sample itself: a quarter of the way is 0.125 ms.
    [Fact]
    public void A_step_closes_where_it_was_drawn_to_within_a_sample()
    {
        List<Beat> found = Found(Record(12));
        Assert.Equal(11, found.Count);
        Assert.All(found, b =>
        {
            Assert.Equal(DrawnS(b.Index) - 0.0005 + 0.000125, b.ClosureS, 1e-9);
            Assert.Equal(1, b.IntervalS, 1e-9);
            Assert.Equal(DrawnS(b.Index + 1) - 0.000375, b.NextClosureS, 1e-9);
        });
        Assert.Equal(Enumerable.Range(0, 11), found.Select(b => b.Index));
    }

    // Worked out in milliseconds from the first sample of the beat.
    [Theory]
    // Crossing −0.5, spike at 2: −0.5 + 0.25 · 2.5.
    [InlineData(0.125, 200e3, 260e3, 320e3, 250e3)]
    // The first sample is still below nine tenths; between it and the next the middle is 175 kPa, at 0.5. The spike is that next one, at 1.
    [InlineData(0.625, 150e3)]
    // Two samples below nine tenths: no crossing within one step, so the first counts; the top is at 3.
    [InlineData(0.75, 120e3, 140e3, 160e3)]
    // It rises for longer than a quarter of the pipe period, 6.5 ms: what comes later may be the wave from the intake.
    [InlineData(1.5, 110e3, 120e3, 130e3, 140e3, 150e3, 160e3, 170e3, 175e3, 176e3, 177e3, 178e3)]
    public void The_closure_lies_a_quarter_of_the_way_from_reaching_the_plateau_to_the_spike(double expectedMs, params double[] start)
    {
        List<Beat> found = Found(Record(12, start), null, Scale with { PipePeriodS = 0.026 });
        Assert.Equal(11, found.Count);
        Assert.All(found, b => Assert.Equal(DrawnS(b.Index) + (expectedMs / 1000), b.ClosureS, 1e-7));
    }

    // At 50 samples a second, a step is most of the pipe period of 24 ms. The spike stands within its first quarter, so that a sample that comes
    // later tells nothing of it: the closure is the middle of the step, and a quarter of the quarter.
    [Fact]
    public void At_a_rate_too_slow_for_the_pipe_no_later_sample_puts_off_the_closure()
    {
        double[] beat = [.. Stay(DeliveryPa, 1), .. Stay(320e3, 1), .. Stay(DeliveryPa, 4), .. Stay(SuctionPa, 6), .. Stay(OpenPa, 38)];
        double[] pressures = [.. Stay(OpenPa, 25), .. Enumerable.Repeat(beat, 12).SelectMany(b => b)];
        List<Beat> found = Found(pressures, Times(pressures.Length, 0.02));
        Assert.Equal(11, found.Count);
        Assert.All(found, b => Assert.Equal(0.5 + b.Index - 0.01 + (0.25 * 0.25 * 0.024), b.ClosureS, 1e-9));
    }

    // The fall from 200 to −30 kPa passes 101 kPa after 99 parts of 230 of a step. Levels are known to a bin, a 4096th of the range.
    [Fact]
    public void Delivery_ends_where_the_pressure_falls_through_the_middle_and_the_valve_opens_where_it_comes_back()
    {
        Assert.All(Found(Record(12)), b =>
        {
            Assert.Equal(DrawnS(b.Index) + 0.119 + (0.001 * 99 / 230), b.DeliveryEndS, 1e-6);
            Assert.Equal(DrawnS(b.Index) + 0.250, b.OpenStartS, 1e-9);
            Assert.Equal(OpenPa, b.OpenStartPa);
            Assert.Equal(b.IntervalS, b.DeliveryLengthS + b.RecoilLengthS + b.OpenLengthS, 1e-9);
            Assert.Equal(0.119 + (0.001 * 99 / 230) + 0.000375, b.DeliveryLengthS, 1e-6);
            Assert.Equal(0.250 - 0.119 - (0.001 * 99 / 230), b.RecoilLengthS, 1e-6);
        });
    }

    // The plug's rest is read from the first tenth of the open phase; what rises later is the column's own speed.
    [Fact]
    public void The_pressure_at_rest_is_that_of_the_open_phase_s_beginning()
    {
        double[] rising = [.. Stay(DeliveryPa, 120), .. Stay(SuctionPa, 130), .. Stay(3e3, 80), .. Enumerable.Range(0, 670).Select(i => 3e3 + (4e3 * i / 670))];
        double[] pressures = [.. Stay(3e3, 500), .. Enumerable.Repeat(rising, 12).SelectMany(b => b)];
        Assert.All(Found(pressures), b => Assert.Equal(3e3, b.OpenStartPa));
    }

    // Half the plateau at 190, half at 210 kPa, then 10 ms at 150: a tenth of the jump under the plateau is closed valve.
    [Fact]
    public void Delivery_pressure_is_the_mean_while_the_delivery_valve_stands_open()
    {
        double[] start = [.. Enumerable.Range(0, 110).Select(i => i % 2 == 0 ? 190e3 : 210e3), .. Stay(150e3, 10)];
        Assert.All(Found(Record(12, start)), b => Assert.Equal(200e3, b.DeliveryPa, 1e-6));
    }

    [Fact]
    public void Peak_and_suction_are_the_beat_s_own_largest_and_smallest_sample()
    {
        double[] Own(int i) => [.. Stay(DeliveryPa, 2), 400e3 + (1e3 * i), .. Stay(DeliveryPa, 117), -40e3 - (1e3 * i), .. Stay(SuctionPa, 129), .. Stay(OpenPa, 750)];
        List<Beat> found = Found([.. Stay(OpenPa, 500), .. Enumerable.Range(0, 12).SelectMany(Own)]);
        Assert.Equal(11, found.Count);
        Assert.All(found, b =>
        {
            Assert.Equal(400e3 + (1e3 * b.Index), b.PeakPa);
            Assert.Equal(-40e3 - (1e3 * b.Index), b.SuctionPa);

            // The spike is one sample above flat ground: within a step it may have gone as far again as it stands above its neighbours.
            Assert.Equal(b.PeakPa, b.PeakEstimatePa - b.PeakUncertaintyPa, 1e-6);
            Assert.Equal((2 * b.PeakPa) - DeliveryPa, b.PeakEstimatePa + b.PeakUncertaintyPa, 1e-6);
        });
    }

    [Fact]
    public void The_levels_are_those_that_were_drawn()
    {
        Found(Record(12), null, null, out BeatDetector detector);
        BeatLevels levels = detector.Levels!;
        double bin = (DeliveryPa - SuctionPa) / 4096;
        Assert.Equal(OpenPa, levels.OpenPa, bin);
        Assert.Equal(DeliveryPa, levels.DeliveryPa, bin);
        Assert.Equal(0.5 * (OpenPa + DeliveryPa), levels.ThresholdPa, bin);
        Assert.Equal(DeliveryPa - OpenPa, levels.JumpPa, 2 * bin);

        // Suction counts as lull: 880 samples low, from the last above to the next above 881 steps. An eighth of a lull and more is one.
        Assert.Equal(0.881, levels.TypicalOpenS, 1e-9);
        Assert.Equal(0.15 * 0.881, levels.ShortestOpenS, 1e-9);
    }

    // A median absolute deviation of Gaussian noise, times 1.4826, is its standard deviation (Rousseeuw and Croux 1993, doi 10.2307/2291267).
    [Theory]
    [InlineData(300)]
    [InlineData(2000)]
    public void The_spread_of_the_open_level_is_the_noise_s_standard_deviation(double noisePa)
    {
        var random = new Random(11);
        double Noise() => noisePa * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        double[] beat = [.. Stay(DeliveryPa, 120), .. Stay(OpenPa, 880)];
        Found([.. Stay(OpenPa, 500), .. Enumerable.Repeat(beat, 30).SelectMany(b => b).Select(p => p + Noise())], null, null, out BeatDetector detector);

        // Three standard errors of it (1.167 σ/√n, from the same page) and a bin, a 4096th of the range, either way.
        double doubtPa = (3 * 1.167 * noisePa / Math.Sqrt(26_000)) + (1.4826 * ((DeliveryPa - OpenPa) + (10 * noisePa)) / 4096);
        Assert.InRange(detector.Levels!.OpenDeviationPa, noisePa - doubtPa, noisePa + doubtPa);
    }
}
