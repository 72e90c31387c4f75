using Clackbeat.Signal.Beats;
using CsCheck;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>Many values looked at in one step, against one after the other.</summary>
public class RunsTests
{
    // Few different values make ties with the level; runs begin and end at every place of a step.
    private static readonly Gen<double[]> Values = Gen.Select(Gen.Int[0, 40], Gen.Int[0, 40], Gen.Int[0, 6].Array[0, 20])
        .Select((low, high, rest) => (double[])[.. Enumerable.Repeat(2.0, low), .. Enumerable.Repeat(4.0, high), .. rest.Select(v => (double)v)]);

    [Fact]
    public void A_run_ends_before_the_first_value_on_the_other_side() => Gen.Select(Values, Gen.Int[0, 6]).Sample((values, level) =>
    {
        Assert.Equal(values.TakeWhile(v => v < level).Count(), Runs.Below(values, level));
        Assert.Equal(values.TakeWhile(v => v >= level).Count(), Runs.Above(values, level));
    }, iter: 5000);

    [Fact]
    public void Steps_are_the_differences_of_neighbours() => Gen.Double[1e-4, 1].Array[1, 1300].Sample(steps =>
    {
        double[] timesS = [0, .. steps];
        for (int i = 1; i < timesS.Length; i++)
        {
            timesS[i] += timesS[i - 1];
        }

        double[] between = [.. timesS.Zip(timesS.Skip(1), (a, b) => b - a)];
        Assert.Equal((between.Min(), between.Max()), Runs.Steps(timesS));
    }, iter: 300);
}
