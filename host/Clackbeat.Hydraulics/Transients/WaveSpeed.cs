using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Hydraulics.Transients;

/// <summary>
/// Speed of a pressure wave in a water-filled pipe: a = √((K/ρ) / (1 + c1 K D/(E e))), D the bore, e the wall
/// (Korteweg; E. B. Wylie and V. L. Streeter, Fluid Transients in Systems, 1993, ch. 1).
/// </summary>
/// <remarks>
/// Two restraint factors are in print for a pipe held at one end: 1 − µ/2 (Wylie and Streeter; kept here) and Parmakian's
/// 5/4 − µ. At µ = 0.3 they are 0.85 and 0.95 and move a steel pipe's wave speed by 1 %. The thick-wall form is the default,
/// because drive pipes are thick (D/e of 5 to 25) and it runs into the thin one as the wall thins.
/// </remarks>
public static class WaveSpeed
{
    /// <summary>Restraint factor c1 of a thin wall: 1 − µ², 1 − µ/2 or 1.</summary>
    /// <param name="restraint">How the pipe is held.</param>
    /// <param name="poissonRatio">Poisson's ratio µ of the wall, 0 to 0.5.</param>
    public static double ThinWallFactor(PipeRestraint restraint, double poissonRatio) => restraint switch
    {
        PipeRestraint.AnchoredThroughout => 1 - poissonRatio * poissonRatio,
        PipeRestraint.AnchoredUpstream => 1 - poissonRatio / 2,
        _ => 1,
    };

    /// <summary>Restraint factor of a wall of any thickness: c1 = (2e/D)(1 + µ) + D/(D + e) · (thin factor).</summary>
    /// <param name="restraint">How the pipe is held.</param>
    /// <param name="poissonRatio">Poisson's ratio µ of the wall, 0 to 0.5.</param>
    /// <param name="boreM">Inside diameter D [m].</param>
    /// <param name="wallM">Wall thickness e [m].</param>
    public static double ThickWallFactor(PipeRestraint restraint, double poissonRatio, double boreM, double wallM) =>
        2 * wallM / boreM * (1 + poissonRatio)
        + boreM / (boreM + wallM) * ThinWallFactor(restraint, poissonRatio);

    /// <summary>The formula itself, for a given restraint factor [m/s].</summary>
    /// <param name="bulkModulusPa">Bulk modulus K of the water [Pa].</param>
    /// <param name="densityKgPerM3">Density of the water [kg/m³].</param>
    /// <param name="boreM">Inside diameter D [m].</param>
    /// <param name="wallM">Wall thickness e [m].</param>
    /// <param name="youngPa">Young's modulus E of the wall at the beat's speed, not its creep modulus [Pa].</param>
    /// <param name="restraintFactor">c1.</param>
    public static double Korteweg(
        double bulkModulusPa, double densityKgPerM3, double boreM, double wallM, double youngPa, double restraintFactor) =>
        Math.Sqrt(bulkModulusPa / densityKgPerM3
            / (1 + restraintFactor * bulkModulusPa * boreM / (youngPa * wallM)));

    /// <summary>Wave speed of air-free water in a pipe, thick-wall form [m/s].</summary>
    /// <param name="water">The water.</param>
    /// <param name="wall">The wall's material.</param>
    /// <param name="boreM">Inside diameter [m].</param>
    /// <param name="wallM">Wall thickness [m].</param>
    /// <param name="restraint">How the pipe is held.</param>
    public static double InPipe(
        WaterProperties water,
        MaterialProperties wall,
        double boreM,
        double wallM,
        PipeRestraint restraint = PipeRestraint.AnchoredThroughout) =>
        InPipe(water, wall.YoungPa, wall.PoissonRatio, boreM, wallM, restraint);

    /// <summary>
    /// Lowest and highest wave speed that the spread of the material's modulus and the three ways of holding it allow [m/s].
    /// </summary>
    /// <param name="water">The water.</param>
    /// <param name="wall">The wall's material.</param>
    /// <param name="boreM">Inside diameter [m].</param>
    /// <param name="wallM">Wall thickness [m].</param>
    public static Band Plausible(WaterProperties water, MaterialProperties wall, double boreM, double wallM) => new(
        InPipe(water, wall.YoungLowPa, wall.PoissonRatio, boreM, wallM, PipeRestraint.ExpansionJoints),
        // For every µ below ½, 1 − µ/2 is the smallest of the three factors.
        InPipe(water, wall.YoungHighPa, wall.PoissonRatio, boreM, wallM, PipeRestraint.AnchoredUpstream));

    private static double InPipe(
        WaterProperties water, double youngPa, double poissonRatio, double boreM, double wallM, PipeRestraint restraint)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(boreM);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(wallM);
        double factor = ThickWallFactor(restraint, poissonRatio, boreM, wallM);
        return Korteweg(water.BulkModulusPa, water.DensityKgPerM3, boreM, wallM, youngPa, factor);
    }
}
