namespace Clackbeat.Hydraulics.Fatigue;

/// <summary>
/// Cycles to failure of steel details by EN 1993-1-9:2005 §7.1: slope 3 to 5 million cycles, slope 5 to 100 million, and a
/// cut-off below which a cycle does no harm.
/// </summary>
/// <remarks>
/// Written for structures with "sufficient corrosion protection" (scope of the standard). A wall pitted by rust has no
/// cut-off, so its life is not covered here.
/// </remarks>
public static class SteelCurve
{
    /// <summary>Category of cut threads in tension, Table 8.1 detail 14 [Pa].</summary>
    public const double ThreadCategoryPa = 50e6;

    /// <summary>Category of a fully fused longitudinal mill weld under hoop stress, as a butt weld from one side, Table 8.3 [Pa].</summary>
    public const double SeamCategoryPa = 71e6;

    /// <summary>Category of the same weld when its root was never inspected, Table 8.3 [Pa].</summary>
    public const double UninspectedSeamCategoryPa = 36e6;

    /// <summary>Partial factors γ_Mf of Table 3.1: from damage seen in time to sudden failure with grave consequences.</summary>
    public static Band PartialFactor { get; } = new(1.0, 1.35);

    /// <summary>Cut-off stress range, 0.549 · 0.737 of the category [Pa].</summary>
    /// <param name="categoryPa">Detail category: stress range endured 2 million times [Pa].</param>
    public static double CutOffPa(double categoryPa) =>
        LimitPa(categoryPa) * Math.Pow(5.0 / 100.0, 1.0 / 5);

    /// <summary>Cycles to failure; positive infinity below the cut-off.</summary>
    /// <param name="stressRangePa">Stress range [Pa].</param>
    /// <param name="categoryPa">Detail category, already divided by the partial factor [Pa].</param>
    public static double Cycles(double stressRangePa, double categoryPa)
    {
        double limit = LimitPa(categoryPa);
        if (stressRangePa >= limit)
        {
            return 2e6 * Math.Pow(categoryPa / stressRangePa, 3);
        }

        return stressRangePa >= CutOffPa(categoryPa)
            ? 5e6 * Math.Pow(limit / stressRangePa, 5)
            : double.PositiveInfinity;
    }

    private static double LimitPa(double categoryPa) => categoryPa * Math.Pow(2.0 / 5.0, 1.0 / 3);
}
