using Clackbeat.Signal.Beats;
using CsCheck;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>Selection against the definition: what stands in the middle after the framework's own sort.</summary>
public sealed class MediansTests
{
    // Few different values make ties, which selection must survive.
    private static readonly Gen<double[]> Values = Gen.OneOf(Gen.Double[-1e6, 1e6], Gen.Int[0, 5].Select(i => (double)i)).Array[1, 300];

    [Fact]
    public void The_median_is_what_stands_in_the_middle_after_sorting() => Values.Sample(values =>
    {
        double[] before = [.. values];
        double found = Medians.Of(values);
        Assert.Equal(before, values);
        Assert.Equal(before.Order().ElementAt(before.Length / 2), found);
    });

    [Fact]
    public void The_median_of_what_reaches_a_level_leaves_out_the_rest() => Gen.Select(Values, Gen.Double[-1e6, 1e6], Gen.Bool).Sample((values, level, tie) =>
    {
        double at = tie ? values[0] : level;
        double[] reaching = [.. values.Where(v => v >= at).Order()];
        double[] meant = reaching.Length > 0 ? reaching : [.. values.Order()];
        Assert.Equal(meant[meant.Length / 2], Medians.OfReaching(values, at));
    });

    [Fact]
    public void Whether_it_lies_above_a_level_is_told_without_finding_it() => Gen.Select(Values, Gen.Double[-1e6, 1e6], Gen.Bool).Sample((values, level, tie) =>
    {
        double at = tie ? values[0] : level;
        Assert.Equal(values.Order().ElementAt(values.Length / 4) > at, Medians.LowerQuartileIsAbove(values, at));
    });
}
