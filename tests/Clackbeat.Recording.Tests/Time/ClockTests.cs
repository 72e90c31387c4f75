using Clackbeat.Recording.Time;

namespace Clackbeat.Recording.Tests.Time;

/// <summary>The truth is chosen here: a device clock of a known rate, and arrivals that are late by chance.</summary>
public class ClockTests
{
    [Theory]
    [InlineData(-80, 60)]
    [InlineData(0, 60)]
    [InlineData(35, 600)]
    [InlineData(120, 7200)]
    public void The_rate_of_a_clock_lies_within_its_stated_uncertainty(double ratePpm, int lengthS)
    {
        const int Trials = 100;
        int inside = 0;
        for (int seed = 0; seed < Trials; seed++)
        {
            ClockLine line = Fit(ratePpm, lengthS, seed);
            inside += Math.Abs(line.RatePpm!.Value - ratePpm) <= line.RateUncertaintyPpm ? 1 : 0;
        }

        // A 95 % interval; 88 of 100 would be met by chance less than once in 200 by a true one.
        Assert.InRange(inside, 88, Trials);
    }

    [Fact]
    public void Ten_minutes_tell_a_crystal_of_20_ppm_from_a_perfect_one()
    {
        ClockLine line = Fit(20, 600, 1);
        Assert.True(line.RateUncertaintyPpm < 20);
    }

    [Fact]
    public void A_tenth_of_wild_arrivals_does_not_bend_it()
    {
        ClockFit fit = new();
        Random random = new(3);
        for (int s = 0; s < 600; s++)
        {
            long late = s % 10 == 0 ? 2_000_000 : random.Next(5000);
            fit.Add(s * 1_000_000L, (s * 1_000_000L) + late);
        }

        Assert.InRange(fit.Line()!.RatePpm!.Value, -5, 5);
    }

    [Fact]
    public void Under_three_seconds_no_rate_is_given()
    {
        ClockFit fit = new();
        fit.Add(0, 500);
        fit.Add(1_500_000, 1_500_700);
        Assert.Null(fit.Line()!.RatePpm);
    }

    [Fact]
    public void A_clock_that_was_set_is_told_from_one_that_is_steered()
    {
        HostCalendar calendar = new();
        for (long s = 0; s < 100; s++)
        {
            // Steered by 500 parts per million, the most a time service does; set by -30 s at 60 s.
            calendar.Add(1_000_000_000 + (s * 1_000_500) - (s >= 60 ? 30_000_000 : 0), s * 1_000_000);
        }

        ClockStep step = Assert.Single(calendar.Steps);
        Assert.Equal(60_000_000, step.ElapsedMicroseconds);
        Assert.InRange(step.StepMicroseconds, -30_001_000, -29_999_000);
    }

    // Thirty frames a second, each late by 10 ms and some more: an exponential share with a mean of 8 ms.
    private static ClockLine Fit(double ratePpm, int lengthS, int seed)
    {
        ClockFit fit = new();
        Random random = new(seed);
        for (int frame = 0; frame < lengthS * 30; frame++)
        {
            double trueUs = frame * 1e6 / 30;
            double lateUs = 10_000 - (8_000 * Math.Log(1 - random.NextDouble()));
            fit.Add((long)(trueUs * (1 + (ratePpm * 1e-6))), (long)(trueUs + lateUs));
        }

        return fit.Line()!;
    }
}
