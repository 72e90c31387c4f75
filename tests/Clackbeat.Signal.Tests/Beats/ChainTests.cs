using Clackbeat.Signal.Beats;
using static Clackbeat.Signal.Tests.Beats.DrawnRam;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>Where a chain of beats begins and ends: gaps, stops, rings, bounces, and the edges of a record, on a drawn ram.</summary>
public class ChainTests
{
    [Fact]
    public void The_last_closure_is_told_although_its_beat_is_unfinished()
    {
        Found(Record(12), null, null, out BeatDetector detector);
        Assert.Equal(DrawnS(11) - 0.000375, detector.LastClosureS!.Value, 1e-9);
        Assert.Equal(DrawnS(11) + 0.119, detector.LowSinceS!.Value, 1e-9);
    }

    [Fact]
    public void Before_the_first_closure_nothing_is_told_of_one()
    {
        Found(Stay(OpenPa, 20_000), null, null, out BeatDetector detector);
        Assert.Null(detector.LastClosureS);
        Assert.Null(detector.LowSinceS);
        Assert.Null(detector.Levels);
    }

    [Fact]
    public void Without_a_sample_there_is_no_beat() => Assert.Empty(Found([]));

    // A rise that the record begins with may have an open phase before it that nobody saw: it counts when the body stood calm and low.
    [Theory]
    [InlineData(1)]
    [InlineData(20)]
    [InlineData(700)]
    public void A_record_that_begins_open_counts_from_its_first_rise(int openSamples)
    {
        List<Beat> found = Found([.. Stay(OpenPa, openSamples), .. Enumerable.Range(0, 12).SelectMany(_ => Beat())]);
        Assert.Equal(11, found.Count);
        Assert.Equal((StepS * openSamples) - 0.000375, found[0].ClosureS, 1e-9);
    }

    [Fact]
    public void A_record_that_begins_in_delivery_counts_from_the_first_whole_beat()
    {
        List<Beat> found = Found([.. Stay(DeliveryPa, 60), .. Record(12)[(120 + LeadSamples)..]]);
        Assert.Equal(10, found.Count);
    }

    [Fact]
    public void A_record_that_begins_in_suction_does_not_take_the_rise_out_of_it_for_a_closure()
    {
        List<Beat> found = Found([.. Stay(SuctionPa, 60), .. Stay(DeliveryPa, 30), .. Stay(SuctionPa, 60), .. Record(12)]);
        Assert.Equal(11, found.Count);
        Assert.True(found[0].ClosureS > 0.6);
    }

    // The valve bounces: after a short suction the pressure is up again. Its lull is longer than the shortest open phase, but no rest at the open level.
    [Fact]
    public void A_bounce_out_of_suction_is_part_of_its_beat()
    {
        double[] bounced = [.. Stay(DeliveryPa, 100), .. Stay(SuctionPa, 200), .. Stay(DeliveryPa, 40), .. Stay(SuctionPa, 100), .. Stay(OpenPa, 560)];
        List<Beat> found = Found([.. Stay(OpenPa, 500), .. Enumerable.Repeat(bounced, 12).SelectMany(b => b)]);
        Assert.Equal(11, found.Count);
        Assert.All(found, b =>
        {
            Assert.Equal(1, b.IntervalS, 1e-9);
            Assert.Equal(DrawnS(b.Index) + 0.339, b.DeliveryEndS, 0.001);
        });
    }

    // The column needs (L/a)(h/H) = 0.096 s of an open valve to lift the delivery valve again.
    [Fact]
    public void Sub_peaks_with_lulls_too_short_for_the_column_are_part_of_their_beat()
    {
        double[] rough = [.. Stay(DeliveryPa, 40), .. Stay(OpenPa, 60), .. Stay(DeliveryPa, 40), .. Stay(OpenPa, 60), .. Stay(DeliveryPa, 40), .. Stay(OpenPa, 760)];
        List<Beat> found = Found([.. Stay(OpenPa, 500), .. Enumerable.Repeat(rough, 12).SelectMany(b => b)]);
        Assert.Equal(11, found.Count);
        Assert.All(found, b => Assert.Equal(1, b.IntervalS, 1e-9));
    }

    // The valve shuts and stays shut: the pipe rings between supply head and above the threshold, with pauses shorter than an open phase.
    [Fact]
    public void The_ring_of_a_valve_that_stays_shut_is_no_beat_and_ends_the_chain()
    {
        double[] ring = [.. Enumerable.Range(0, 60).SelectMany(_ => (double[])[.. Stay(150e3, 60), .. Stay(SuctionPa, 60)])];
        List<Beat> found = Found([.. Record(12), .. ring, .. Stay(25e3, 8000), .. Beat(), .. Beat(), .. Beat()]);
        Assert.All(found, b => Assert.Equal(1, b.IntervalS, 1e-9));
        Assert.Equal(12 + 2, found.Count);
        Assert.All(found.Skip(12), b => Assert.True(b.ClosureS > DrawnS(12) + 7.2 + 7.9));
    }

    [Theory]
    [InlineData(15.5, true)]
    [InlineData(16.5, false)]
    public void A_lull_longer_than_sixteen_seconds_is_a_stop_and_no_beat(double lullS, bool isBeat)
    {
        double[] paused = [.. Record(12), .. Stay(OpenPa, (int)(1000 * lullS) - 880), .. Record(12)[LeadSamples..]];
        List<Beat> found = Found(paused);
        Assert.Equal(isBeat ? 23 : 22, found.Count);
        Assert.Equal(isBeat, found.Any(b => b.IntervalS > 2));
        Assert.Equal(isBeat ? 0 : 1, Enumerable.Range(1, found.Count - 1).Count(i => found[i].ClosureS - found[i - 1].NextClosureS > 1e-9));
    }

    // A quarter of the pipe period is 6 ms.
    [Theory]
    [InlineData(20, true)]
    [InlineData(8, true)]
    [InlineData(4, false)]
    public void A_hole_large_against_the_wave_s_travel_marks_its_beat_and_no_other(int missing, bool marked)
    {
        double[] pressures = Record(12);
        int from = LeadSamples + (5 * BeatSamples) + 400;
        List<Beat> found = Found([.. pressures[..from], .. pressures[(from + missing)..]], [.. Times(from), .. Times(pressures.Length - from - missing, StepS, StepS * (from + missing))]);
        Assert.Equal(11, found.Count);
        Assert.Equal(marked ? [5] : [], found.Where(b => b.HasGap).Select(b => b.Index));
    }

    // Twelve a second are nearly a pipe period apart, evenly: slow, but no hole.
    [Fact]
    public void Slow_sampling_is_no_hole()
    {
        double[] beat = [.. Stay(DeliveryPa, 6), .. Stay(SuctionPa, 6), .. Stay(OpenPa, 38)];
        double[] pressures = [.. Stay(OpenPa, 25), .. Enumerable.Repeat(beat, 12).SelectMany(b => b)];
        Assert.All(Found(pressures, Times(pressures.Length, 0.02)), b => Assert.False(b.HasGap));
    }

    [Fact]
    public void A_gap_in_which_a_closure_may_have_gone_unseen_ends_the_chain_and_what_follows_begins_anew()
    {
        double[] pressures = Record(12);
        (int from, int to) = (LeadSamples + (5 * BeatSamples) + 400, LeadSamples + (6 * BeatSamples) + 300);
        double[] timesS = Times(pressures.Length);
        List<Beat> found = Found([.. pressures[..from], .. pressures[to..]], [.. timesS[..from], .. timesS[to..]]);
        Assert.Equal([0, 1, 2, 3, 4, 7, 8, 9, 10], found.Select(b => (int)Math.Round(b.ClosureS - 0.5)));
        Assert.All(found, b => Assert.Equal(1, b.IntervalS, 1e-9));
    }

    [Fact]
    public void The_window_of_a_beat_goes_from_the_open_phase_before_it_to_the_end_of_the_delivery_after_it()
    {
        List<(Beat Beat, double From, double To, int Samples)> windows = [];
        var detector = new BeatDetector(Scale, w => windows.Add((w.Beat, w.TimesS[0], w.TimesS[^1], w.PressuresPa.Length)));
        double[] pressures = Record(12);
        detector.Add(Times(pressures.Length), pressures);
        detector.Finish();
        Assert.Equal(11, windows.Count);
        Assert.All(windows.Skip(1), w =>
        {
            Assert.Equal(DrawnS(w.Beat.Index - 1) + 0.119, w.From, 1e-9);
            Assert.Equal(DrawnS(w.Beat.Index + 1) + 0.119, w.To, 1e-9);
            Assert.Equal(2001, w.Samples);
        });
    }

    [Fact]
    public void A_beat_is_handed_out_when_the_next_closure_s_delivery_is_over_and_not_at_the_record_s_end()
    {
        List<Beat> beats = [];
        var detector = new BeatDetector(Scale, w => beats.Add(w.Beat));
        double[] pressures = Record(30);
        detector.Add(Times(pressures.Length), pressures);
        Assert.Equal(28, beats.Count);
        detector.Finish();
        Assert.Equal(29, beats.Count);
    }

    // A minute is what levels are learnt from, every half minute.
    [Fact]
    public void What_is_held_does_not_grow_with_the_record_whether_the_ram_beats_or_has_stopped()
    {
        var detector = new BeatDetector(Scale, _ => { });
        double[] beat = Beat();
        long[] most = new long[2];
        for (int second = 0; second < 600; second++)
        {
            double[] now = second is > 200 and < 400 ? Stay(25e3 + second, BeatSamples) : beat;
            detector.Add(Times(BeatSamples, StepS, second), now);
            most[second / 300] = Math.Max(most[second / 300], detector.Samples.End - detector.Samples.First);
        }

        Assert.InRange(most[1], 60_000, most[0]);
        Assert.True(most[0] < 300_000, "the first half of the record is not held whole");
    }

    // Shut, the body stands at the supply head, far above the open level.
    [Fact]
    public void A_stop_of_minutes_leaves_the_levels_as_they_were_and_the_first_beat_after_it_is_found()
    {
        double[] stopped = [.. Enumerable.Range(0, 200_000).Select(i => 25e3 + (500 * Math.Sin(i)))];
        List<Beat> found = Found([.. Record(30), .. stopped, .. Stay(OpenPa, 1000), .. Record(12)]);
        Assert.Equal(29 + 11, found.Count);
    }

    [Theory]
    [InlineData(20)]
    [InlineData(45)]
    [InlineData(70)]
    [InlineData(300)]
    public void However_long_a_ram_stood_shut_each_of_its_beats_afterwards_is_found(int stoodS)
    {
        double[] stood = [.. Enumerable.Range(0, 1000 * stoodS).Select(i => 25e3 + (500 * Math.Sin(i)))];
        List<Beat> found = Found([.. Record(20), .. stood, .. Record(200)]);
        Assert.Equal(19 + 199, found.Count);
        Assert.All(found, b => Assert.Equal(1, b.IntervalS, 0.002));
    }

    // The supply's zero has moved while the ram stood: between the old levels nothing is a beat any more.
    [Fact]
    public void A_ram_that_comes_back_between_other_levels_is_found_from_a_minute_before_it_is_noticed()
    {
        double[] moved = [.. Record(200).Select(p => p + 150e3)];
        List<Beat> found = Found([.. Record(20), .. Stay(OpenPa, 80_000), .. moved]);
        Assert.InRange(found.Count, 19 + 150, 19 + 199);
        Assert.All(found, b => Assert.Equal(1, b.IntervalS, 0.002));
    }

    // A sensor that drifts by 150 kPa in ten minutes leaves the first levels far behind.
    [Fact]
    public void Levels_follow_a_sensor_that_drifts()
    {
        double[] pressures = Record(600);
        List<Beat> found = Found([.. pressures.Select((p, i) => p + (150e3 * i / pressures.Length))]);
        Assert.Equal(599, found.Count);
        Assert.All(found, b => Assert.Equal(1, b.IntervalS, 0.002));
    }
}
