using Clackbeat.Signal.Beats;
using CsCheck;
using static Clackbeat.Signal.Tests.Beats.DrawnRam;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>What passes for a beating ram and what doesn't, by the physics that the decision on beats names; supply 25 kPa, pipe period 24 ms.</summary>
public class LevelLearnerTests
{
    [Fact]
    public void A_ram_that_beats_between_the_drawn_levels_is_learnt() => Assert.NotNull(Learnt(Levels(12, (2e3, 880), (200e3, 120))));

    // Delivery stands above what the supply head alone can give, and by more than that above the open level.
    [Theory]
    [InlineData(2e3, 24e3)]
    [InlineData(2e3, 26e3)]
    [InlineData(-40e3, 24e3)]
    [InlineData(100e3, 124e3)]
    public void Swings_that_the_supply_head_alone_can_make_are_no_delivery(double openPa, double deliveryPa) =>
        Assert.Null(Learnt(Levels(12, (openPa, 880), (deliveryPa, 120))));

    [Theory]
    [InlineData(2e3, 28e3)]
    [InlineData(100e3, 126e3)]
    public void Swings_beyond_it_are(double openPa, double deliveryPa) => Assert.NotNull(Learnt(Levels(12, (openPa, 880), (deliveryPa, 120))));

    // (L/a)(h/H) = 96 ms; half of it is too short for any column, whatever the site file may have wrong.
    [Theory]
    [InlineData(40, false)]
    [InlineData(56, true)]
    public void An_open_phase_too_short_for_the_column_to_gain_its_speed_is_none(int openSamples, bool isRam) =>
        Assert.Equal(isRam, Learnt(Levels(60, (2e3, openSamples), (200e3, 20))) is not null);

    // Seven beats of 0.3 s and a stop of 2.4 s: by time, the stop is longer than all open phases together. It tells nothing of them.
    [Fact]
    public void A_stop_that_has_just_begun_is_no_open_phase()
    {
        double[] pressures = [.. Levels(7, (2e3, 240), (200e3, 60)), .. Stay(2e3, 2400)];
        Assert.Equal(0.24, Learnt(pressures)!.TypicalOpenS, 0.01);
    }

    // The ring of a shut pipe fills the range between its extremes; an open valve leaves the body calm.
    [Fact]
    public void A_ring_is_no_ram_however_slow() =>
        Assert.Null(Learnt([.. Enumerable.Range(0, 20_000).Select(i => 100e3 + (150e3 * Math.Sin(2 * Math.PI * i / 1000)))]));

    [Fact]
    public void Fifteen_samples_tell_nothing_and_neither_does_a_flat_line()
    {
        double[] few = [.. Stay(2e3, 11), .. Stay(200e3, 4)];
        Assert.Null(new LevelLearner(Scale).Learn(Times(few.Length, 0.1), few));
        Assert.Null(Learnt(Stay(2e3, 5000)));
    }

    // Half of all time in lulls belongs to those of 0.9 s and longer: 60 short ones are 3.66 s together, 10 long ones 9.01 s, and a stop counts for nothing.
    [Fact]
    public void The_usual_lull_is_the_one_that_half_the_time_belongs_to()
    {
        double[] rough = [.. Enumerable.Range(0, 10).SelectMany(_ => (double[])[.. Levels(6, (2e3, 60), (200e3, 20)), .. Levels(1, (2e3, 900), (200e3, 60))])];
        Assert.Equal(0.901, Learnt([.. Stay(200e3, 30), .. rough])!.TypicalOpenS, 1e-9);
        Assert.Equal(0.901, Learnt([.. Stay(200e3, 30), .. rough, .. Levels(1, (2e3, 8500), (200e3, 60)), .. rough])!.TypicalOpenS, 1e-9);
    }

    // The site's figure lies between an eighth (0.15) and a half of what the record shows.
    [Theory]
    [InlineData(0.024, 0.15 * 0.881)]
    [InlineData(0.060, 0.240)]
    [InlineData(0.150, 0.5 * 0.881)]
    public void The_shortest_open_phase_is_the_column_s_as_far_as_the_record_bears_it_out(double pipePeriodS, double expectedS)
    {
        double[] pressures = Levels(12, (2e3, 880), (200e3, 120));
        BeatLevels levels = new LevelLearner(Scale with { PipePeriodS = pipePeriodS }).Learn(Times(pressures.Length), pressures)!;
        Assert.Equal(expectedS, levels.ShortestOpenS, 1e-9);
    }

    // Otsu's own definition, tried at every border: the two classes whose means lie furthest apart for their sizes.
    [Fact]
    public void The_split_is_the_one_with_the_greatest_variance_between_classes() => Gen.Int[0, 60].Select(v => (double)v).Array[20, 400].Where(v => v.Min() < v.Max()).Sample(values =>
    {
        // 64 bins over whole numbers: the same values in the same bins for both.
        double[] all = [-1, .. values, 63];
        var histogram = new Histogram(64);
        Assert.True(histogram.Count(all));
        double[] places = [.. all.Select(v => Math.Min(63, Math.Floor(v + 1)))];
        double Between(int split)
        {
            double[] low = [.. places.Where(p => p < split)];
            double[] high = [.. places.Where(p => p >= split)];
            return (double)low.Length * high.Length * Math.Pow(low.Average() - high.Average(), 2);
        }

        double best = Enumerable.Range(1, 63).Max(Between);
        Assert.Equal(best, Between(histogram.OtsuSplit(0)), 1e-9 * best);
    }, iter: 500);

    // Quantile, median and median deviation against the framework's own sort; a bin's middle stands for its values.
    [Fact]
    public void Medians_and_quantiles_of_a_histogram_are_those_of_the_sorted_values() => Gen.Int[0, 63].Array[1, 300].Sample(values =>
    {
        double[] all = [0, .. values.Select(v => (double)v), 64];
        var histogram = new Histogram(64);
        Assert.True(histogram.Count(all));
        double[] middles = [.. all.Select(v => Math.Min(v, 63) + 0.5).Order()];
        double median = middles[(middles.Length - 1) / 2];
        Assert.Equal(median, histogram.Median(0, 64));
        Assert.Equal(middles.Select(m => Math.Abs(m - median)).Order().ElementAt((middles.Length - 1) / 2), histogram.MedianDeviation(0, 64, median));
        Assert.Equal(middles[(int)Math.Ceiling(0.25 * middles.Length) - 1] - 0.5, histogram.BinOfQuantile(0.25));
        double[] upper = [.. middles.Where(m => m > 20)];
        Assert.Equal(upper[(upper.Length - 1) / 2], histogram.Median(20, 64));
    }, iter: 1000);

    private static BeatLevels? Learnt(double[] pressures) => new LevelLearner(Scale).Learn(Times(pressures.Length), pressures);

    private static double[] Levels(int beats, params (double Pa, int Samples)[] stays) =>
        [.. Enumerable.Repeat(stays, beats).SelectMany(s => s).SelectMany(s => Stay(s.Pa, s.Samples))];
}
