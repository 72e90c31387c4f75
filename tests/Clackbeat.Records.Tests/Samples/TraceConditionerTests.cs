using Clackbeat.Records.Samples;

namespace Clackbeat.Records.Tests.Samples;

public class TraceConditionerTests
{
    [Fact]
    public void A_repeated_instant_with_the_same_value_is_a_copy() =>
        Assert.Equal([(0, 1), (1, 2)], Through([(0, 1), (0, 1), (1, 2)], out TraceConditioner c, counted: 1));

    [Fact]
    public void A_repeated_instant_with_another_value_stands_halfway_to_the_next() =>
        Assert.Equal([(0, 1), (0.5, 7), (1, 2)], Through([(0, 1), (0, 7), (1, 2)], out _, counted: 1));

    [Fact]
    public void Samples_up_to_a_second_late_are_sorted_in()
    {
        Assert.Equal([(0, 1), (0.1, 2), (0.2, 3)], Through([(0, 1), (0.2, 3), (0.1, 2)], out TraceConditioner c, counted: 0));
        Assert.Equal(1, c.Unordered);
    }

    [Fact]
    public void A_clock_that_jumps_back_starts_a_new_stretch_one_second_later()
    {
        Assert.Equal([(100, 1), (101, 2), (101.5, 3)], Through([(100, 1), (0, 2), (0.5, 3)], out TraceConditioner c, counted: 0));
        Assert.Equal(1, c.ClockJumps);
    }

    // Found by fuzzing: nothing tells where between this tick of the clock and the next such a sample belongs.
    [Fact]
    public void A_repeated_last_instant_is_counted_and_left_out() =>
        Assert.Equal([(0, 1), (1, 2)], Through([(0, 1), (1, 2), (1, 7)], out _, counted: 1));

    [Fact]
    public void Between_neighbours_among_the_doubles_there_is_no_halfway() => Assert.Equal(
        [(1, 1), (Math.BitIncrement(1.0), 2)], Through([(1, 1), (1, 7), (Math.BitIncrement(1.0), 2)], out _, counted: 1));

    [Fact]
    public void A_clock_that_runs_backwards_within_a_second_does_not_make_the_wait_grow_with_the_file()
    {
        long seen = 0;
        TraceConditioner conditioner = new((_, _) => seen++);
        const int Samples = 200_000;
        for (int i = 0; i < Samples; i++)
        {
            conditioner.Add(1 - (i / (2.0 * Samples)), i);
        }

        Assert.True(seen + conditioner.Repeated > Samples * 0.9);
    }

    private static List<(double TimeS, double PressurePa)> Through(
        (double TimeS, double PressurePa)[] samples, out TraceConditioner conditioner, long counted)
    {
        var seen = new List<(double, double)>();
        conditioner = new TraceConditioner((t, p) => seen.Add((t, p)));
        foreach ((double timeS, double pressurePa) in samples)
        {
            conditioner.Add(timeS, pressurePa);
        }

        conditioner.Finish();
        Assert.Equal(counted, conditioner.Repeated);
        return seen;
    }
}
