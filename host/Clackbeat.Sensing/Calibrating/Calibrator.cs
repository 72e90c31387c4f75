using System.Globalization;
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
    /// <param name="pressure">How a pressure [Pa] is written for the keeper.</param>
    public static Calibration Make(
        SignalPath path,
        IReadOnlyList<CalibrationPoint> points,
        ChainKnowledge knowledge,
        DateOnly date,
        Func<double, string> pressure)
    {
        (CalibrationCurve curve, IReadOnlyList<PointResult> results) = CalibrationFit.Of(path, points, knowledge);
        return new Calibration
        {
            Date = date,
            Method = MethodOf(points),
            Path = path,
            Points = results,
            Curve = curve,
            Warnings =
            [
                .. AboutPoints(results, pressure),
                .. AboutDataSheet(curve, knowledge),
                .. AboutWindow(path, points, pressure),
                .. AboutReach(path, curve, results, pressure),
            ],
        };
    }

    private static string MethodOf(IReadOnlyList<CalibrationPoint> points) => string.Join(
        ", ",
        points.GroupBy(p => p.Reference).OrderBy(g => g.Key).Select(g => (g.Key, g.Count()) switch
        {
            (ReferenceKind.Air, _) => "zero in the open air",
            (ReferenceKind.Column, 1) => "1 water column",
            (ReferenceKind.Column, var n) => $"{n} water columns",
            (ReferenceKind.Gauge, 1) => "1 pressure by a gauge",
            (ReferenceKind.Gauge, var n) => $"{n} pressures by a gauge",
            (_, 1) => "1 voltage or current by a meter",
            var (_, n) => $"{n} voltages or currents by a meter",
        }));

    private static IEnumerable<string> AboutPoints(IReadOnlyList<PointResult> results, Func<double, string> pressure)
    {
        // One bad point makes its neighbours look bad too; the worst is named first.
        foreach (PointResult poor in results.Where(r => r.IsPoor)
            .OrderByDescending(r => Math.Abs(r.FromOthersPa!.Value) / r.FromOthersUncertaintyPa!.Value))
        {
            yield return $"Point \"{poor.Point.Text}\" is {pressure(Math.Abs(poor.FromOthersPa!.Value))} "
                + $"{(poor.FromOthersPa > 0 ? "above" : "below")} what the other points say, and ± {pressure(poor.FromOthersUncertaintyPa!.Value)} "
                + "is expected. Take it again: air in the line, a slip of the tape, a typing error.";
        }
    }

    private static IEnumerable<string> AboutDataSheet(CalibrationCurve curve, ChainKnowledge knowledge)
    {
        string[] what = ["zero", "span"];
        for (int i = 0; i < what.Length; i++)
        {
            double allowed = FarFromDataSheet * Math.Sqrt(Square(knowledge.Electric[i]) + Square(knowledge.Sensor[i]));
            if (Math.Abs(curve.Coefficients[i]) > allowed)
            {
                yield return string.Create(
                    CultureInfo.InvariantCulture,
                    $"The {what[i]} is {100 * curve.Coefficients[i]:+0.0;-0.0} % of the span off the data sheets, which allow some ± {100 * allowed:0.0} %. Check range, output, divider or shunt in the site file, and that the sensor is well.");
            }
        }
    }

    private static IEnumerable<string> AboutWindow(
        SignalPath path, IReadOnlyList<CalibrationPoint> points, Func<double, string> pressure)
    {
        foreach (CalibrationPoint point in points)
        {
            double volts = path.Converter.VoltsAt(point.Counts);
            if (point.Counts <= 0 || point.Counts >= path.Converter.MaxCounts)
            {
                yield return $"Point \"{point.Text}\" stands at the end of the converter: it says nothing of the pressure. Leave it out.";
            }
            else if (volts < path.Converter.UsableLowV || volts > path.Converter.UsableHighV)
            {
                yield return $"Point \"{point.Text}\" lies outside the voltages that the converter reads truly. Change divider or shunt.";
            }
        }

        if (path.UsablePa.High < path.RangeHighPa || path.UsablePa.Low > path.RangeLowPa)
        {
            yield return $"Divider or shunt leave only {pressure(path.UsablePa.Low)} to {pressure(path.UsablePa.High)} of the sensor's range "
                + "within the converter's window.";
        }

        if (path.SpanPa / path.StepPa < FewCounts)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"The whole range is only {path.SpanPa / path.StepPa:0} counts wide. A larger share of the signal would read finer.");
        }
    }

    private static IEnumerable<string> AboutReach(
        SignalPath path, CalibrationCurve curve, IReadOnlyList<PointResult> results, Func<double, string> pressure)
    {
        double top = path.UsablePa.High;
        double widest = curve.UncertaintyPaAt(top);
        List<PointResult> onPressure = [.. results.Where(r => r.Point.Reference != ReferenceKind.Electric)];
        double reached = onPressure.Max(r => r.Point.PressurePa);
        if (onPressure.Count == 1)
        {
            yield return "One pressure sets the zero only; the slope stays the data sheets'.";
        }

        if (widest > TooWideShareOfSpan * path.SpanPa && reached < 0.7 * top)
        {
            yield return $"The points end at {pressure(reached)}; at {pressure(top)} the pressure is only known to ± {pressure(widest)}. "
                + "A point high in the range (hand pump and gauge, a standing delivery main) or voltages by a meter over the "
                + "converter's window would narrow it.";
        }

        if (results.Any(r => path.Output.FollowsSupply && r.Point.SupplyCounts is null))
        {
            yield return "The sensor's supply was not read with every point; pressures move with the supply, which is allowed for in the ±.";
        }
    }

    private static double Square(double value) => value * value;
}
