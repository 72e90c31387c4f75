using Clackbeat.Sensing.Conversion;

namespace Clackbeat.Sensing.Calibrating;

/// <summary>Makes a calibration of points and says what is weak in it.</summary>
public static class Calibrator
{
    // Three standard uncertainties of what the data sheets allow: beyond it the description of the chain is the likelier error.
    private const double FarFromDataSheet = 3;

    // A tenth of the span read over fewer counts than this is a coarse converter, whatever the averaging.
    private const double FewCounts = 500;

    private const double TooWideShareOfSpan = 0.005;

    /// <summary>Fits the points and collects what the keeper should know.</summary>
    /// <param name="path">The chain by its data sheets.</param>
    /// <param name="points">At least one point on pressure.</param>
    /// <param name="knowledge">What is known of the chain beforehand.</param>
    /// <param name="date">Day of the calibration.</param>
    public static Calibration Make(
        SignalPath path,
        IReadOnlyList<CalibrationPoint> points,
        ChainKnowledge knowledge,
        DateOnly date)
    {
        (CalibrationCurve curve, IReadOnlyList<PointResult> results) = CalibrationFit.Of(path, points, knowledge);
        return new Calibration
        {
            Date = date,
            Path = path,
            Points = results,
            Curve = curve,
            Warnings =
            [
                .. AboutPoints(results),
                .. AboutDataSheet(curve, knowledge),
                .. AboutAtmosphere(path, points),
                .. AboutWindow(path, points),
                .. AboutReach(path, curve, results),
            ],
        };
    }

    private static IEnumerable<CalibrationRemark> AboutPoints(IReadOnlyList<PointResult> results)
    {
        // One bad point makes its neighbours look bad too; the worst is named first.
        foreach (PointResult poor in results.Where(r => r.IsPoor)
            .OrderByDescending(r => Math.Abs(r.FromOthersPa!.Value) / r.FromOthersUncertaintyPa!.Value))
        {
            yield return new CalibrationRemark(CalibrationRemarkCode.PointAgainstOthers, poor.Point.Text, poor.FromOthersPa!.Value, poor.FromOthersUncertaintyPa!.Value);
        }
    }

    private static IEnumerable<CalibrationRemark> AboutDataSheet(CalibrationCurve curve, ChainKnowledge knowledge)
    {
        CalibrationRemarkCode[] codes = [CalibrationRemarkCode.ZeroOffSheet, CalibrationRemarkCode.SpanOffSheet];
        for (int i = 0; i < codes.Length; i++)
        {
            double allowed = FarFromDataSheet * Math.Sqrt(Square(knowledge.Electric[i]) + Square(knowledge.Sensor[i]));
            if (Math.Abs(curve.Coefficients[i]) > allowed)
            {
                yield return new CalibrationRemark(codes[i], Value: curve.Coefficients[i], Limit: allowed);
            }
        }
    }

    // On a wide sensor an atmosphere is within what the converter's zero may be off, so no limit notices it.
    private static IEnumerable<CalibrationRemark> AboutAtmosphere(SignalPath path, IReadOnlyList<CalibrationPoint> points)
    {
        CalibrationPoint lowest = points.Where(p => p.Reference != ReferenceKind.Electric).MinBy(p => p.PressurePa)!;
        double apart = path.PressurePaAt(lowest.Counts, lowest.SupplyCounts) - lowest.PressurePa;
        if (ContradictionCauses.IsAtmosphere(apart))
        {
            yield return new CalibrationRemark(CalibrationRemarkCode.Atmosphere, Value: apart);
        }
    }

    private static IEnumerable<CalibrationRemark> AboutWindow(SignalPath path, IReadOnlyList<CalibrationPoint> points)
    {
        foreach (CalibrationPoint point in points)
        {
            double volts = path.Converter.VoltsAt(point.Counts);
            if (point.Counts <= 0 || point.Counts >= path.Converter.MaxCounts)
            {
                yield return new CalibrationRemark(CalibrationRemarkCode.PointAtEnd, point.Text);
            }
            else if (volts < path.Converter.UsableLowV || volts > path.Converter.UsableHighV)
            {
                yield return new CalibrationRemark(CalibrationRemarkCode.PointOutside, point.Text);
            }
        }

        if (path.UsablePa.High < path.RangeHighPa || path.UsablePa.Low > path.RangeLowPa)
        {
            yield return new CalibrationRemark(CalibrationRemarkCode.Window, Value: path.UsablePa.Low, Top: path.UsablePa.High);
        }

        if (path.SpanPa / path.StepPa < FewCounts)
        {
            yield return new CalibrationRemark(CalibrationRemarkCode.FewCounts, Value: path.SpanPa / path.StepPa);
        }
    }

    private static IEnumerable<CalibrationRemark> AboutReach(
        SignalPath path, CalibrationCurve curve, IReadOnlyList<PointResult> results)
    {
        double top = path.UsablePa.High;
        double widest = curve.UncertaintyPaAt(top);
        List<PointResult> onPressure = [.. results.Where(r => r.Point.Reference != ReferenceKind.Electric)];
        double reached = onPressure.Max(r => r.Point.PressurePa);
        if (onPressure.Count == 1)
        {
            yield return new CalibrationRemark(CalibrationRemarkCode.OnePressure);
        }

        if (widest > TooWideShareOfSpan * path.SpanPa && reached < 0.7 * top)
        {
            yield return new CalibrationRemark(CalibrationRemarkCode.Reach, Value: reached, Limit: widest, Top: top);
        }

        if (results.Any(r => path.Output.FollowsSupply && r.Point.SupplyCounts is null))
        {
            yield return new CalibrationRemark(CalibrationRemarkCode.SupplyUnread);
        }
    }

    private static double Square(double value) => value * value;
}
