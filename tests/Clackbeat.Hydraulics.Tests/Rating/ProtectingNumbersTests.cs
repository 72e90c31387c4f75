using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;

namespace Clackbeat.Hydraulics.Tests.Rating;

/// <summary>
/// The numbers that stand between a keeper and a burst pipe, written out with what they protect from: whoever changes one has to
/// change it here too, and say why.
/// </summary>
public class ProtectingNumbersTests
{
    /// <summary>100 mm PVC-U pipe under full suction: the column parts, so the wall bears nearly 1.0 bar.</summary>
    private static readonly PipeLoad Sucked = new()
    {
        Material = PipeMaterial.PvcU,
        BoreM = 0.1,
        Joint = PipeJoint.Plain,
        PeakPa = 4e5,
        PeakUncertaintyPa = 0.1e5,
        TroughPa = -1.0e5,
        BeatsPerMin = 60,
        SampleRateHz = 1000,
        PipePeriodS = 0.05,
    };

    /// <summary>
    /// By hand, 2 E/(1 − µ²)/(DR − 1)³ with E 2.4 GPa and µ 0.4: DR 33 folds at 1.74 bar, DR 29 at 2.60 bar. A pipe out of round folds
    /// at half of that (AWWA M11, from memory), so the first is not called safe.
    /// </summary>
    [Theory]
    [InlineData(33, PipeVerdict.Near)]
    [InlineData(29, PipeVerdict.Within)]
    public void A_wall_must_bear_twice_the_suction(double dimensionRatio, PipeVerdict expected)
    {
        const double outsideM = 0.1;
        double wallM = outsideM / dimensionRatio;
        SuctionCheck check = PipeRating.Check(Sucked with { BoreM = outsideM - (2 * wallM), WallM = wallM }).Suction!;
        Assert.Equal(2 * 2.4e9 / (1 - (0.4 * 0.4)) / Math.Pow(dimensionRatio - 1, 3), check.CollapsePa!.Value, 500.0);
        Assert.Equal(expected, check.CollapseVerdict);
    }

    /// <summary>EN 1993-1-9:2005: Table 8.1 detail 14, Table 8.3 with the root inspected and not, Table 3.1.</summary>
    [Fact]
    public void Steel_wears_by_the_categories_of_the_standard()
    {
        Assert.Equal(50e6, SteelCurve.ThreadCategoryPa);
        Assert.Equal(71e6, SteelCurve.SeamCategoryPa);
        Assert.Equal(36e6, SteelCurve.UninspectedSeamCategoryPa);
        Assert.Equal(new Band(1.0, 1.35), SteelCurve.PartialFactor);
    }

    /// <summary>A ram is built for a generation; nobody tested a pipe for longer than a century.</summary>
    [Fact]
    public void A_pipe_is_judged_for_twenty_years_and_no_life_is_promised_beyond_a_hundred()
    {
        Assert.Equal(20, Sucked.DesignLifeYears);
        Assert.Equal(100, FatigueCheck.LongestLifeYears);
    }

    /// <summary>
    /// Where only a rating is printed, the stress is taken from the highest design stress in use, 2000 psi of ASTM D2241: 160 psi then
    /// mean DR 26, the thinnest wall that may bear that print.
    /// </summary>
    [Fact]
    public void A_printed_rating_alone_is_taken_for_the_thinnest_wall_that_may_bear_it()
    {
        PipeLoad printed = Sucked with { BoreM = 0.1, TroughPa = 0, PrintedRatingPa = 160 * 6894.757, PeakPa = 8e5 };
        PipeLoad walled = printed with { BoreM = 24.0 / 26 * 0.1, WallM = 0.1 / 26 };
        Assert.Equal(1, PipeRating.Check(printed).FatigueLifeYears!.Value / PipeRating.Check(walled).FatigueLifeYears!.Value, 0.02);
    }
}
