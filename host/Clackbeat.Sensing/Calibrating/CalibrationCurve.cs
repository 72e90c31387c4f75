namespace Clackbeat.Sensing.Calibrating;

/// <summary>
/// What is added to the nominal pressure x: p = x + S Σ cᵢ φᵢ(u), with u = (x − low)/S and S the sensor's span, and how
/// far that may be off. φ are <see cref="Basis"/>: zero, span, bow and sway, each as a share of the span.
/// </summary>
public sealed record CalibrationCurve
{
    /// <summary>Terms of the curve.</summary>
    public const int Terms = 4;

    // Makes the greatest departure of u(1 − u)(1 − 2u), at u = 1/2 ± 1/√12, one.
    private static readonly double Sway = 6 * Math.Sqrt(3);

    /// <summary>Low end of the sensor's range [Pa gauge].</summary>
    public required double RangeLowPa { get; init; }

    /// <summary>The sensor's span [Pa].</summary>
    public required double SpanPa { get; init; }

    /// <summary>Zero, span, bow and sway as shares of the span.</summary>
    public required IReadOnlyList<double> Coefficients { get; init; }

    /// <summary>Covariance of the coefficients, row by row.</summary>
    public required IReadOnlyList<IReadOnlyList<double>> Covariance { get; init; }

    /// <summary>Standard uncertainty from ripples of the converter's curve that no few terms can follow, share of the span.</summary>
    public required double RippleShare { get; init; }

    /// <summary>Standard uncertainty from what the supply does between calibration and use, share of the reading.</summary>
    public required double SupplyShare { get; init; }

    /// <summary>Calibrated pressure [Pa gauge].</summary>
    /// <param name="nominalPa">Pressure by the data sheets [Pa gauge].</param>
    public double PressurePaAt(double nominalPa)
    {
        double[] basis = Basis((nominalPa - RangeLowPa) / SpanPa);
        double correction = 0;
        for (int i = 0; i < Terms; i++)
        {
            correction += Coefficients[i] * basis[i];
        }

        return nominalPa + (SpanPa * correction);
    }

    /// <summary>
    /// Expanded uncertainty (k = 2, JCGM 100:2008, 6.2) of a steady calibrated pressure [Pa]: the points' own
    /// uncertainties and what they leave open of the curve, its ripples, and the supply. It grows away from the points.
    /// </summary>
    /// <param name="nominalPa">Pressure by the data sheets [Pa gauge].</param>
    public double UncertaintyPaAt(double nominalPa)
    {
        double[] basis = Basis((nominalPa - RangeLowPa) / SpanPa);
        double variance = RippleShare * RippleShare;
        for (int i = 0; i < Terms; i++)
        {
            for (int j = 0; j < Terms; j++)
            {
                variance += basis[i] * Covariance[i][j] * basis[j];
            }
        }

        double supply = SupplyShare * PressurePaAt(nominalPa);
        return 2 * Math.Sqrt((variance * SpanPa * SpanPa) + (supply * supply));
    }

    /// <summary>Zero 1, span u, bow 4u(1 − u) and sway 6√3 u(1 − u)(1 − 2u), the last two at most one within the range.</summary>
    /// <param name="share">Place in the range, 0 at its low end and 1 at its high end.</param>
    public static double[] Basis(double share) =>
        [1, share, 4 * share * (1 - share), Sway * share * (1 - share) * (1 - (2 * share))];
}
