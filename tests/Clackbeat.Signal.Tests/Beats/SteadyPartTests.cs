using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>Start-up and stop are left out of the figures; an even ram, a sticking one and a slow drift lose nothing.</summary>
public class SteadyPartTests
{
    [Fact]
    public void A_slower_start_and_a_faster_end_are_left_out_and_hardly_a_steady_beat_with_them()
    {
        double[] intervals = [.. Around(0.35, 20, 1), .. Around(0.25, 120, 2), .. Around(0.18, 15, 3)];
        (int from, int end) = SteadyPart.Find(intervals);

        // Pettitt's test places one change among two within a few beats; never one of the start or the end is taken for steady.
        Assert.InRange(from, 20, 25);
        Assert.InRange(end, 135, 140);
    }

    [Fact]
    public void Even_beats_are_all_steady() => Assert.Equal((0, 200), SteadyPart.Find(Around(1.2, 200, 4)));

    [Fact]
    public void A_sticking_valve_that_stretches_beats_here_and_there_is_no_start_up()
    {
        double[] intervals = Around(1.2, 90, 5);
        for (int i = 0; i < intervals.Length; i += 7)
        {
            intervals[i] *= 1.6;
        }

        Assert.Equal((0, 90), SteadyPart.Find(intervals));
    }

    [Fact]
    public void A_single_odd_beat_at_the_start_does_not_move_the_figure_so_it_stays() =>
        Assert.Equal((0, 41), SteadyPart.Find([2.4, .. Around(1.2, 40, 6)]));

    [Fact]
    public void A_step_within_the_usual_scatter_cuts_nothing_off() =>
        Assert.Equal((0, 120), SteadyPart.Find([.. Around(1.000, 60, 7), .. Around(1.006, 60, 8)]));

    [SkippableFact]
    public void The_measured_ram_with_a_start_up_gives_the_rate_of_its_steady_part()
    {
        // Known of this record: 255 to 270 beats a minute after a slower start-up (the folder's own notes).
        string? folder = Rams.TracesFolder("measured");
        Skip.If(folder is null, "The measured traces are not at hand.");
        RamAnalysis analysis = Rams.Analyse(
            Rams.Laboratory2019, Path.Combine(folder, "ram-body-b.tsv"), Records.Tables.TraceColumns.Parse("day_fraction:day", "body_cm:cm"));
        Assert.InRange(analysis.Beats.RatePerMin!.Value.Value, 255, 270);
        Assert.InRange(analysis.Beats.WholeRatePerMin!.Value.Value, 240, 250);
        Assert.Contains(analysis.Findings, f => f.Code == "steady-part");
    }

    /// <summary>Intervals that scatter by 1 %, as a seeded draw.</summary>
    private static double[] Around(double meanS, int count, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ => meanS * (1 + (0.01 * MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1))))];
    }
}
