using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;

namespace Clackbeat.Hydraulics.Tests.Rating;

public class StretchTests
{
    private static readonly PipeLoad Mixed = new()
    {
        Material = PipeMaterial.GalvanisedSteel,
        BoreM = 0.0525,
        PrintedRatingPa = 40e5,
        PeakPa = 11e5,
        PeakUncertaintyPa = 0.2e5,
        TroughPa = 0,
        BeatsPerMin = 50,
        TemperatureC = 12,
        Stretches =
        [
            new PipeStretch("section 1 (PE100)", PipeMaterial.Pe100, 0.0614) { WallM = 0.0058, PrintedRatingPa = 10e5 },
            new PipeStretch("section 2 (steel)", PipeMaterial.GalvanisedSteel, 0.0525) { WallM = 0.0039, PrintedRatingPa = 40e5, Joint = PipeJoint.Plain },
        ],
    };

    [Fact]
    public void The_weakest_section_decides_and_is_named()
    {
        PipeCheck alone = PipeRating.Check(Mixed with { Stretches = [], Material = PipeMaterial.Pe100, BoreM = 0.0614, WallM = 0.0058, PrintedRatingPa = 10e5 });
        PipeCheck check = PipeRating.Check(Mixed);
        Assert.Equal("section 1 (PE100)", check.Weakest);
        Assert.Equal(alone.AllowablePa, check.AllowablePa);
        Assert.Equal(alone.Verdict, check.Verdict);
        Assert.Equal(["section 1 (PE100)", "section 2 (steel)"], check.Stretches.Select(s => s.Name));
        Assert.Equal((RatingRemarkCode.WeakestSection, "section 1 (PE100)"), (check.Remarks[0].Code, check.Remarks[0].Part));
    }

    [Fact]
    public void A_section_that_nobody_rates_leaves_no_verdict_however_strong_the_other()
    {
        PipeCheck check = PipeRating.Check(Mixed with { PeakPa = 2e5, Stretches = [Mixed.Stretches[1], new PipeStretch("section 2", PipeMaterial.Other, 0.05)] });
        Assert.Equal(PipeVerdict.Unknown, check.Verdict);
        Assert.Equal("section 2", check.Weakest);
    }

    [Fact]
    public void A_section_over_its_limit_is_told_before_one_that_can_t_be_judged()
    {
        PipeCheck check = PipeRating.Check(Mixed with { PeakPa = 30e5, Stretches = [Mixed.Stretches[0], new PipeStretch("section 2", PipeMaterial.Other, 0.05)] });
        Assert.Equal(PipeVerdict.Over, check.Verdict);
        Assert.Equal("section 1 (PE100)", check.Weakest);
    }
}
