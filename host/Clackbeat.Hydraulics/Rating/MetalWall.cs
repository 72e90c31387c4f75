using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>A metal grade, Data/metals.csv; the first grade of a material is the one taken when none is known.</summary>
/// <param name="Material">Material.</param>
/// <param name="Grade">Grade in words.</param>
/// <param name="StressPa">Allowable stress [Pa].</param>
/// <param name="WeldFactor">Longitudinal weld factor.</param>
/// <param name="MillTolerance">Share of the wall that may be missing when new.</param>
/// <param name="CorrosionM">Usual allowance for rust [m].</param>
/// <param name="IsUnconfirmed">The stress was never checked against that source.</param>
/// <param name="Source">Source.</param>
public sealed record MetalGrade(
    PipeMaterial Material,
    string Grade,
    double StressPa,
    double WeldFactor,
    double MillTolerance,
    double CorrosionM,
    bool IsUnconfirmed,
    string Source)
{
    /// <summary>Every grade.</summary>
    public static IReadOnlyList<MetalGrade> All { get; } = DataTable.Read("metals.csv", row => new MetalGrade(
        Enum.Parse<PipeMaterial>(row["material"].Span),
        row["grade"].ToString(),
        row["stress_MPa"].Parse<double>() * 1e6,
        row["weld_factor"].Parse<double>(),
        row["mill_tolerance_percent"].Parse<double>() / 100,
        row["corrosion_mm"].Parse<double>() * 1e-3,
        row["unconfirmed"].ToString() == "yes",
        row["source"].ToString()));
}

/// <summary>What is left of a metal wall, and what it bears.</summary>
public static class MetalWall
{
    private static readonly List<(double OutsideM, double DepthM)> Threads = DataTable.Read(
        "threads.csv",
        row => (row["od_to_mm"].Parse<double>() * 1e-3, row["depth_mm"].Parse<double>() * 1e-3));

    /// <summary>Depth of a taper pipe thread cut into a pipe [m], ASME B1.20.1 (Data/threads.csv).</summary>
    /// <param name="outsideDiameterM">Outside diameter, to 0.4 m [m].</param>
    public static double ThreadDepthM(double outsideDiameterM) =>
        Threads.First(t => outsideDiameterM <= t.OutsideM).DepthM;

    /// <summary>Wall left after mill tolerance, thread and rust [m]; 0 when nothing is left.</summary>
    /// <param name="grade">Grade.</param>
    /// <param name="wallM">Nominal wall [m].</param>
    /// <param name="outsideDiameterM">Outside diameter [m].</param>
    /// <param name="threaded">Threads are cut into it.</param>
    /// <param name="corrosionM">Allowance for rust [m]; null for the grade's.</param>
    public static double EffectiveM(
        MetalGrade grade, double wallM, double outsideDiameterM, bool threaded, double? corrosionM = null) =>
        Math.Max(0, wallM * (1 - grade.MillTolerance)
            - (threaded ? ThreadDepthM(outsideDiameterM) : 0)
            - (corrosionM ?? grade.CorrosionM));

    /// <summary>Rating by the ASME B31 formula on the wall that is left [Pa].</summary>
    /// <param name="grade">Grade.</param>
    /// <param name="wallM">Nominal wall [m].</param>
    /// <param name="outsideDiameterM">Outside diameter [m].</param>
    /// <param name="threaded">Threads are cut into it.</param>
    /// <param name="corrosionM">Allowance for rust [m]; null for the grade's.</param>
    public static double RatedPa(
        MetalGrade grade, double wallM, double outsideDiameterM, bool threaded, double? corrosionM = null) =>
        WallFormulas.B31Pa(
            grade.StressPa * grade.WeldFactor,
            EffectiveM(grade, wallM, outsideDiameterM, threaded, corrosionM),
            outsideDiameterM);
}
