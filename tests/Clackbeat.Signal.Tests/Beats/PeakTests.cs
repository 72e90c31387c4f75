using Clackbeat.Signal.Beats;
using CsCheck;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>The peak between samples against its definition, in stretches of any length.</summary>
public sealed class PeakTests
{
    private static readonly Gen<double[]> Values = Gen.OneOf(Gen.Double[-1e6, 1e6], Gen.Int[0, 5].Select(i => (double)i)).Array[0, 70];

    [Fact]
    public void A_peak_reaches_past_a_top_as_steeply_as_its_steeper_side() => Values.Where(v => v.Length > 0).Sample(values =>
    {
        double highest = values.Max();
        for (int i = 1; i < values.Length - 1; i++)
        {
            (double left, double right) = (values[i] - values[i - 1], values[i] - values[i + 1]);
            highest = left >= 0 && right >= 0 ? Math.Max(highest, values[i] + Math.Max(left, right)) : highest;
        }

        var peak = Peak.Of(values);
        Assert.Equal(values.Max(), peak.LargestPa);
        Assert.Equal(0.5 * (values.Max() + highest), peak.EstimatePa);
    });
}
