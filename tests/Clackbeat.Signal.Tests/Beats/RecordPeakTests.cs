using Clackbeat.Signal.Beats;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>The estimated peak of a record's hard beats, worked out by hand.</summary>
public class RecordPeakTests
{
    // Twenty alike beats, 100 Pa the largest sample and 120 the most it may have been. Their intervals scatter by a step, so phases are
    // random: 19 times in 20 one of 20 samples lies within d = 1 − 0.05^(1/20) = 0.13911 of a step of the top.
    [Fact]
    public void Many_beats_at_random_phases_leave_little_of_the_peak_unseen()
    {
        var peak = RecordPeak.Of(Alike(20, scatterS: 0.01), 0.001, 0);
        Assert.Equal(100 + (0.13911 * 20), peak.HighestPa, 1e-3);
        Assert.Equal(100 + (0.13911 * 10), peak.MiddlePa, 1e-3);
        Assert.Equal(0.13911 * 10, peak.HalfWidthPa, 1e-3);
        Assert.Equal(100, peak.HardFromPa);
    }

    // A ram like a clock shows one phase: one beat's worth, d = 1 − 0.05 = 0.95. So do two beats.
    [Theory]
    [InlineData(20)]
    [InlineData(2)]
    [InlineData(1)]
    public void Beats_at_the_same_phase_tell_no_more_than_one(int count) =>
        Assert.Equal(100 + (0.95 * 20), RecordPeak.Of(Alike(count, scatterS: 0), 0.001, 0).HighestPa, 1e-9);

    // Scatter of half a step counts half the beats: d = 1 − 0.05^(1/10) = 0.25887.
    [Fact]
    public void Scatter_of_half_a_step_counts_half_the_beats() =>
        Assert.Equal(100 + (0.25887 * 20), RecordPeak.Of(Alike(20, scatterS: 0.0005), 0.001, 0).HighestPa, 1e-3);

    // A first-order sensor takes ln 9 = 2.1972 time constants from 10 to 90 %: 4.3944 ms are a constant of two steps of 1 ms.
    [Fact]
    public void A_slow_sensor_hides_as_much_again_as_it_lags() =>
        Assert.Equal(100 + ((0.13911 + 2) * 20), RecordPeak.Of(Alike(20, scatterS: 0.01), 0.001, 0.0043944).HighestPa, 2e-3);

    // 95 of 100 at 100 Pa, five at 60 that can't have reached it: those tell nothing, and none is said to hide more than the others.
    [Fact]
    public void Soft_beats_tell_nothing_of_the_hard_ones_and_hide_no_more_than_they()
    {
        Beat[] beats = [.. Alike(95, 0.01), .. Alike(5, 0.01).Select(b => b with { PeakPa = 60, PeakEstimatePa = 65, PeakUncertaintyPa = 5 })];
        var peak = RecordPeak.Of(beats, 0.001, 0);
        Assert.Equal(100, peak.HardFromPa);

        // d = 1 − 0.05^(1/95) = 0.031043.
        Assert.Equal(100 + (0.031043 * 20), peak.HighestPa, 1e-3);
        IReadOnlyList<Beat> settled = peak.Settle(beats);
        Assert.All(settled.Zip(beats), p =>
        {
            Assert.Equal(p.Second.PeakPa, p.First.PeakEstimatePa - p.First.PeakUncertaintyPa, 1e-9);
            Assert.Equal(peak.HighestPa, p.First.PeakEstimatePa + p.First.PeakUncertaintyPa, 1e-9);
        });
    }

    [Fact]
    public void One_beat_above_all_others_keeps_its_own_largest_sample_as_the_least()
    {
        Beat[] beats = [.. Alike(99, 0.01), Alike(1, 0.01)[0] with { PeakPa = 150, PeakEstimatePa = 160, PeakUncertaintyPa = 10 }];
        var peak = RecordPeak.Of(beats, 0.001, 0);
        Assert.InRange(peak.HighestPa, 150, 151);
        Assert.Equal(100, peak.MiddlePa - peak.HalfWidthPa, 1e-9);
    }

    [Fact]
    public void Without_a_step_there_are_no_phases() => Assert.Equal(119, RecordPeak.Of(Alike(20, 0.01), 0, 0.001).HighestPa, 1e-9);

    // Every other interval is longer and shorter; n values ±x have the standard deviation x·√(n/(n − 1)).
    private static Beat[] Alike(int count, double scatterS)
    {
        double x = count > 1 ? scatterS * Math.Sqrt((count - 1.0) / count) : 0;
        return [.. Enumerable.Range(0, count).Select(i => new Beat
        {
            Index = i,
            ClosureS = 0,
            NextClosureS = 1 + (i % 2 == 0 ? x : -x),
            DeliveryEndS = 0.1,
            OpenStartS = 0.2,
            PeakPa = 100,
            PeakEstimatePa = 110,
            PeakUncertaintyPa = 10,
            DeliveryPa = 80,
            SuctionPa = -10,
            OpenStartPa = 1,
        })];
    }
}
