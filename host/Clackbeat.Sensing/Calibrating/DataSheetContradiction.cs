using Clackbeat.Sensing.Conversion;
using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.Sensing.Calibrating;

/// <summary>What of a calibration contradicts the data sheets.</summary>
public enum ContradictedPart
{
    /// <summary>One point: the zero, or the whole line, lies elsewhere.</summary>
    Point,

    /// <summary>The rise from one point to another: the slope is another.</summary>
    Slope,
}

/// <summary>
/// A calibration that no chain within several times its data sheets' limits could have given. The measured pressures are
/// compared with those that the data sheets give for the same counts.
/// </summary>
/// <param name="Part">What contradicts.</param>
/// <param name="First">The point, or the lower one of the two.</param>
/// <param name="Second">The upper one of the two; null for one point.</param>
/// <param name="ReferencePa">Pressure of the point, or the difference of both, by the references [Pa].</param>
/// <param name="NominalPa">The same by the counts and the data sheets [Pa].</param>
/// <param name="LimitPa">How far they may be apart by data sheets and references, as a limit [Pa].</param>
/// <param name="LineLowPa">Low end of the range that the outermost points would give [Pa]; null with points at one pressure.</param>
/// <param name="LineHighPa">High end of that range [Pa].</param>
/// <param name="Causes">What is likely wrong, likeliest first; may be empty.</param>
public sealed record DataSheetContradiction(
    ContradictedPart Part, CalibrationPoint First, CalibrationPoint? Second, double ReferencePa, double NominalPa, double LimitPa,
    double? LineLowPa, double? LineHighPa, IReadOnlyList<ContradictionCause> Causes)
{
    /// <summary>
    /// How many times the limit is beyond reason. Limits ± b are taken as b/√3 and added as squares, so that nine equal
    /// errors, all at their limit and of one sign, are just three times the limit of the sum. No sound chain gets there.
    /// </summary>
    public const double BeyondReason = 3;

    // The limit of a rectangular distribution over its standard uncertainty (JCGM 100:2008, 4.3.7).
    private static readonly double LimitOverStandard = Math.Sqrt(3);

    /// <summary>The worst contradiction of a set of points; null when they agree within reason.</summary>
    /// <param name="path">The chain by its data sheets.</param>
    /// <param name="points">The points.</param>
    /// <param name="knowledge">What the data sheets allow.</param>
    public static DataSheetContradiction? Worst(
        SignalPath path, IReadOnlyList<CalibrationPoint> points, ChainKnowledge knowledge)
    {
        Vector<double> apart = CalibrationFit.Observed(path, points);
        Matrix<double> design = CalibrationFit.Design(path, points);
        double[] before = [.. knowledge.Electric.Concat(knowledge.Sensor).Select(u => u * u)];
        Matrix<double> variance = (design * Matrix<double>.Build.DenseOfDiagonalArray(before) * design.Transpose())
            + CalibrationFit.CovarianceOf(path, points, knowledge);
        List<(double Times, int First, int? Second, double Limit)> tries = [];
        for (int i = 0; i < points.Count; i++)
        {
            double limit = LimitOverStandard * Math.Sqrt(variance[i, i]);
            tries.Add((Math.Abs(apart[i]) / limit, i, null, limit));
            for (int j = 0; j < points.Count; j++)
            {
                if (points[j].PressurePa > points[i].PressurePa)
                {
                    double between = LimitOverStandard * Math.Sqrt(variance[i, i] + variance[j, j] - (2 * variance[i, j]));
                    tries.Add((Math.Abs(apart[j] - apart[i]) / between, i, j, between));
                }
            }
        }

        (double times, int first, int? second, double width) = tries.MaxBy(t => t.Times);
        return times > BeyondReason ? Of(path, points, first, second, width * path.SpanPa) : null;
    }

    private static DataSheetContradiction Of(
        SignalPath path, IReadOnlyList<CalibrationPoint> points, int first, int? second, double limitPa)
    {
        double Nominal(CalibrationPoint p) => path.PressurePaAt(p.Counts, p.SupplyCounts);
        (CalibrationPoint low, CalibrationPoint? high) = (points[first], second is { } s ? points[s] : null);
        double reference = high is null ? low.PressurePa : high.PressurePa - low.PressurePa;
        double nominal = high is null ? Nominal(low) : Nominal(high) - Nominal(low);
        (CalibrationPoint bottom, CalibrationPoint top) = (points.MinBy(p => p.PressurePa)!, points.MaxBy(p => p.PressurePa)!);
        double rise = Nominal(top) - Nominal(bottom);
        if (top.PressurePa - bottom.PressurePa <= 0 || rise == 0)
        {
            return new DataSheetContradiction(
                ContradictedPart.Point, low, high, reference, nominal, limitPa, null, null, ContradictionCauses.Of(null, low, path));
        }

        double slope = (top.PressurePa - bottom.PressurePa) / rise;
        double Line(double nominalPa) => bottom.PressurePa + (slope * (nominalPa - Nominal(bottom)));
        return new DataSheetContradiction(
            high is null ? ContradictedPart.Point : ContradictedPart.Slope, low, high, reference, nominal, limitPa,
            slope > 0 ? Line(path.RangeLowPa) : null, slope > 0 ? Line(path.RangeHighPa) : null,
            ContradictionCauses.Of(slope, low, path));
    }
}
