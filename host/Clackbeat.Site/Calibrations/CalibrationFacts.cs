using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Calibrations;

/// <summary>What is to be told of a calibration.</summary>
public static class CalibrationFacts
{
    /// <summary>A remark in the keeper's units.</summary>
    public static Fact Of(CalibrationRemark remark, Units units)
    {
        ArgumentNullException.ThrowIfNull(remark);
        Quantity Pressure(double pressurePa) => new(QuantityKind.Pressure, pressurePa, units);
        Fact way = remark.Value > 0 ? Fact.Of("calibrate.above") : Fact.Of("calibrate.below");
        return remark.Code switch
        {
            CalibrationRemarkCode.Insisted => Fact.Of("calibrate.insisted", ("why", remark.Text)),
            CalibrationRemarkCode.PointAgainstOthers => Fact.Of(
                "calibrate.point-against-others",
                ("point", remark.Text), ("apart_pa", Pressure(Math.Abs(remark.Value))), ("way", way), ("expected_pa", Pressure(remark.Limit))),
            CalibrationRemarkCode.ZeroOffSheet => Fact.Of("calibrate.zero-off-sheet", ("off", remark.Value), ("allowed_share", remark.Limit)),
            CalibrationRemarkCode.SpanOffSheet => Fact.Of("calibrate.span-off-sheet", ("off", remark.Value), ("allowed_share", remark.Limit)),
            CalibrationRemarkCode.Atmosphere => Fact.Of("calibrate.atmosphere", ("apart_pa", Pressure(Math.Abs(remark.Value))), ("way", way)),
            CalibrationRemarkCode.PointAtEnd => Fact.Of("calibrate.point-at-end", ("point", remark.Text)),
            CalibrationRemarkCode.PointOutside => Fact.Of("calibrate.point-outside", ("point", remark.Text)),
            CalibrationRemarkCode.Window => Fact.Of("calibrate.window", ("low_pa", Pressure(remark.Value)), ("high_pa", Pressure(remark.Top))),
            CalibrationRemarkCode.FewCounts => Fact.Of("calibrate.few-counts", ("counts", remark.Value)),
            CalibrationRemarkCode.OnePressure => Fact.Of("calibrate.one-pressure"),
            CalibrationRemarkCode.Reach => Fact.Of(
                "calibrate.reach", ("reached_pa", Pressure(remark.Value)), ("top_pa", Pressure(remark.Top)), ("widest_pa", Pressure(remark.Limit))),
            CalibrationRemarkCode.SupplyUnread => Fact.Of("calibrate.supply-unread"),
            _ => Fact.Of("plain", ("what", remark.Text)),
        };
    }
}
