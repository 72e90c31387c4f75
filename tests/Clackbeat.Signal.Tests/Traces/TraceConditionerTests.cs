using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.Tests.Traces;

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
