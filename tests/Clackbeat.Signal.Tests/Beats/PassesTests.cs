using Clackbeat.Signal.Beats;
using CsCheck;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>Passes that look at many samples at once against their definition, one value after the other, in stretches of any length.</summary>
public sealed class PassesTests
{
    private static readonly Gen<double[]> Values = Gen.OneOf(Gen.Double[-1e6, 1e6], Gen.Int[0, 5].Select(i => (double)i)).Array[0, 70];

    // Also the level that a value stands at.
    private static readonly Gen<(double[] Values, double Level)> WithLevel = Gen.Select(Values, Gen.Double[-1e6, 1e6], Gen.Int[0, 69])
        .Select((values, level, at) => (values, at < values.Length ? values[at] : level));

    [Fact]
    public void A_run_below_or_above_ends_at_the_first_value_across() => WithLevel.Sample((values, level) =>
    {
        double[] sorted = [.. values.Order()];
        foreach (double[] some in new[] { values, sorted, [.. sorted.Reverse()] })
        {
            Assert.Equal(some.TakeWhile(v => v < level).Count(), Runs.Below(some, level));
            Assert.Equal(some.TakeWhile(v => v >= level).Count(), Runs.Above(some, level));
        }
    });

    [Fact]
    public void What_is_near_at_the_end_begins_after_the_last_value_further_away() => Gen.Select(WithLevel, Gen.Double[0, 1e6]).Sample((some, band) =>
        Assert.Equal(
            some.Values.Reverse().TakeWhile(v => Math.Abs(v - some.Level) <= band).Count(), Runs.NearAtEnd(some.Values, some.Level, band)));

    [Fact]
    public void Extremes_are_those_of_the_framework() => Values.Where(v => v.Length >= 2).Sample(values =>
    {
        Assert.Equal((values.Min(), values.Max()), Extremes.Of(values));
        double[] steps = [.. values.Skip(1).Zip(values, (later, earlier) => later - earlier)];
        Assert.Equal((steps.Min(), steps.Max()), Extremes.OfSteps(values));
    });

    [Fact]
    public void A_peak_reaches_past_a_top_as_steeply_as_its_steeper_side() => Values.Where(v => v.Length > 0).Sample(values =>
    {
        double highest = values.Max();
        for (int i = 1; i < values.Length - 1; i++)
        {
            (double left, double right) = (values[i] - values[i - 1], values[i] - values[i + 1]);
            highest = left >= 0 && right >= 0 ? Math.Max(highest, values[i] + Math.Max(left, right)) : highest;
        }

        Peak peak = Peak.Of(values);
        Assert.Equal(values.Max(), peak.LargestPa);
        Assert.Equal(0.5 * (values.Max() + highest), peak.EstimatePa);
    });
}
