using Clackbeat.Sensing.Conversion;
using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.Sensing.Calibrating;

/// <summary>
/// Generalised least squares (Aitken) of the curve through the points, with <see cref="ChainKnowledge"/> as further
/// observations: θ = (XᵀV⁻¹X + P⁻¹)⁻¹ XᵀV⁻¹y, covariance (XᵀV⁻¹X + P⁻¹)⁻¹ (JCGM 100:2008, 5.2 and H.3; JCGM 102:2011).
/// </summary>
/// <remarks>
/// No order of the polynomial is chosen: a straight line is what remains where the points don't speak of a bow, with the
/// bow's own uncertainty kept; many points over the range settle it. The unknowns are the four terms of divider and
/// converter and the four of the sensor; a pressure sees the sums, an electric point the first four only.
/// </remarks>
public static class CalibrationFit
{
    private const int Terms = CalibrationCurve.Terms;
    private const int Unknowns = 2 * Terms;

    /// <summary>Fits the curve.</summary>
    /// <param name="path">The chain by its data sheets.</param>
    /// <param name="points">At least one, on pressure.</param>
    /// <param name="knowledge">What is known beforehand.</param>
    public static (CalibrationCurve Curve, IReadOnlyList<PointResult> Points) Of(
        SignalPath path, IReadOnlyList<CalibrationPoint> points, ChainKnowledge knowledge)
    {
        if (points.All(p => p.Reference == ReferenceKind.Electric))
        {
            throw new ArgumentException("A calibration needs at least one point on pressure.", nameof(points));
        }

        Solution all = Solve(path, points, knowledge);
        Matrix<double> covariance = all.Covariance * ScatterFactor(path, points, knowledge, all);
        Matrix<double> sum = Matrix<double>.Build.Dense(Terms, Unknowns, (i, j) => j % Terms == i ? 1 : 0);
        Matrix<double> total = sum * covariance * sum.Transpose();
        CalibrationCurve curve = new()
        {
            RangeLowPa = path.RangeLowPa,
            SpanPa = path.SpanPa,
            Coefficients = [.. sum * all.Theta],
            Covariance = [.. total.EnumerateRows().Select(r => (IReadOnlyList<double>)[.. r])],
            RippleShare = knowledge.RippleShare,
            SupplyShare = knowledge.SupplyShare,
        };
        return (curve, [.. points.Select((p, i) => Judge(path, points, knowledge, all, i))]);
    }

    private static PointResult Judge(
        SignalPath path, IReadOnlyList<CalibrationPoint> points, ChainKnowledge knowledge, Solution all, int index)
    {
        CalibrationPoint point = points[index];
        double nominal = path.PressurePaAt(point.Counts, point.SupplyCounts);
        Vector<double> row = Row(path, point);
        double observed = (point.PressurePa - nominal) / path.SpanPa;
        double residual = path.SpanPa * (observed - (row * all.Theta));
        if (points.Count < 2)
        {
            return new PointResult(point, nominal, residual, null, null);
        }

        // A common error of one reference moves this point and its fellows together; counted as its own it is only widened.
        Solution others = Solve(path, [.. points.Where((_, i) => i != index)], knowledge);
        double variance = (row * others.Covariance * row) + VarianceOf(path, point, knowledge);
        return new PointResult(
            point, nominal, residual, path.SpanPa * (observed - (row * others.Theta)), 2 * path.SpanPa * Math.Sqrt(variance));
    }

    // Where points scatter more than they claim, they are all taken to be worse by that factor (Birge, doi 10.1103/PhysRev.40.207).
    private static double ScatterFactor(
        SignalPath path, IReadOnlyList<CalibrationPoint> points, ChainKnowledge knowledge, Solution all)
    {
        Matrix<double> weight = CovarianceOf(path, points, knowledge).Inverse();
        Matrix<double> design = Design(path, points);
        Vector<double> residuals = Observed(path, points) - (design * all.Theta);
        double freedom = points.Count - (design * all.Covariance * design.Transpose() * weight).Trace();
        double square = residuals * weight * residuals;
        return freedom >= 1 ? Math.Max(1, square / freedom) : 1;
    }

    private static Solution Solve(SignalPath path, IReadOnlyList<CalibrationPoint> points, ChainKnowledge knowledge)
    {
        Matrix<double> design = Design(path, points);
        Matrix<double> weighted = design.Transpose() * CovarianceOf(path, points, knowledge).Inverse();
        double[] before = [.. knowledge.Electric.Concat(knowledge.Sensor).Select(u => 1 / (u * u))];
        Matrix<double> covariance = ((weighted * design) + Matrix<double>.Build.DenseOfDiagonalArray(before)).Inverse();
        return new Solution(covariance * weighted * Observed(path, points), covariance);
    }

    internal static Vector<double> Observed(SignalPath path, IReadOnlyList<CalibrationPoint> points) =>
        Vector<double>.Build.DenseOfEnumerable(
            points.Select(p => (p.PressurePa - path.PressurePaAt(p.Counts, p.SupplyCounts)) / path.SpanPa));

    internal static Matrix<double> Design(SignalPath path, IReadOnlyList<CalibrationPoint> points) =>
        Matrix<double>.Build.DenseOfRowVectors(points.Select(p => Row(path, p)));

    private static Vector<double> Row(SignalPath path, CalibrationPoint point)
    {
        double share = (path.PressurePaAt(point.Counts, point.SupplyCounts) - path.RangeLowPa) / path.SpanPa;
        double[] basis = CalibrationCurve.Basis(share);
        double[] sensor = point.Reference == ReferenceKind.Electric ? new double[Terms] : basis;
        return Vector<double>.Build.DenseOfEnumerable(basis.Concat(sensor));
    }

    internal static Matrix<double> CovarianceOf(
        SignalPath path, IReadOnlyList<CalibrationPoint> points, ChainKnowledge knowledge) =>
        Matrix<double>.Build.Dense(points.Count, points.Count, (i, j) =>
        {
            if (i == j)
            {
                return VarianceOf(path, points[i], knowledge);
            }

            return points[i].Reference == points[j].Reference
                ? points[i].CommonUncertaintyPa * points[j].CommonUncertaintyPa / (path.SpanPa * path.SpanPa)
                : 0;
        });

    private static double VarianceOf(SignalPath path, CalibrationPoint point, ChainKnowledge knowledge) =>
        (((point.OwnUncertaintyPa * point.OwnUncertaintyPa)
            + (point.CommonUncertaintyPa * point.CommonUncertaintyPa)
            + Math.Pow(point.CountsUncertainty * path.StepPa, 2)) / (path.SpanPa * path.SpanPa))
        + (knowledge.RippleShare * knowledge.RippleShare);

    private sealed record Solution(Vector<double> Theta, Matrix<double> Covariance);
}
