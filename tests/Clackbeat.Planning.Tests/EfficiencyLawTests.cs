using Clackbeat.Hydraulics;
using Clackbeat.Planning.Wishes;
using Clackbeat.Planning.Yields;

namespace Clackbeat.Planning.Tests;

/// <summary>The law against published rams that it was not chosen on.</summary>
public class EfficiencyLawTests
{
    [Fact]
    public void Nine_in_ten_published_cases_that_chose_nothing_lie_inside_the_band_of_their_kind()
    {
        IReadOnlyList<PublishedCase> cases = PublishedCase.Of("reporting");
        Assert.True(cases.Count >= 50, "The table of cases has shrunk.");
        var missed = cases.Where(c => !EfficiencyLaw.Of(c.Kind, c.FallM, c.LiftM).Contains(c.Efficiency)).ToList();
        Assert.True(missed.Count <= cases.Count / 10, string.Join("\n", missed));
    }

    [Fact]
    public void Nine_in_ten_lie_inside_the_band_of_a_ram_of_unknown_make()
    {
        IReadOnlyList<PublishedCase> cases = PublishedCase.Of("reporting");
        var missed = cases.Where(c => !EfficiencyLaw.Of(RamKind.Unknown, c.FallM, c.LiftM).Contains(c.Efficiency)).ToList();
        Assert.True(missed.Count <= cases.Count / 10, string.Join("\n", missed));
    }

    [Theory]
    [InlineData(RamKind.Cast)]
    [InlineData(RamKind.HomeMade)]
    public void The_band_of_a_known_make_is_no_wider_than_1_6(RamKind kind)
    {
        foreach (double fall in new[] { 0.5, 1, 3, 8, 15 })
        {
            foreach (double ratio in new[] { 1.2, 2, 5, 10, 20, 40 })
            {
                Band band = EfficiencyLaw.Of(kind, fall, ratio * fall);
                Assert.InRange(band.High / band.Low, 1, 1.6 + 1e-9);
                Assert.InRange(band.High, 0, 0.92);
            }
        }
    }

    [Fact]
    public void Efficiency_falls_with_lift_over_fall_as_every_published_table_has_it()
    {
        foreach (RamKind kind in Enum.GetValues<RamKind>())
        {
            double before = double.PositiveInfinity;
            foreach (int ratio in new[] { 2, 4, 6, 8, 10, 12, 16, 20, 30, 40 })
            {
                double middle = EfficiencyLaw.Of(kind, 3, 3 * ratio).Middle;
                Assert.True(middle < before, $"{kind} at {ratio}");
                before = middle;
            }
        }
    }

    // Building Trades Pocketbook: 72, 61, 52, 44, 37 % at lifts of 4, 6, 8, 10 and 12 falls; the agency's rules 0.66 and 0.33 for bought and home-made rams.
    [Theory]
    [InlineData(RamKind.Cast, 4, 0.66)]
    [InlineData(RamKind.Cast, 6, 0.61)]
    [InlineData(RamKind.Cast, 8, 0.52)]
    [InlineData(RamKind.HomeMade, 6, 0.33)]
    public void Rules_of_thumb_lie_inside(RamKind kind, double ratio, double efficiency) =>
        Assert.True(EfficiencyLaw.Of(kind, 3, 3 * ratio).Contains(efficiency));
}
