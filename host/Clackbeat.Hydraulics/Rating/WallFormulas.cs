namespace Clackbeat.Hydraulics.Rating;

/// <summary>Pressures that a wall bears by its dimensions.</summary>
public static class WallFormulas
{
    /// <summary>Plastic pipe (ISO 161-1, ASTM D2837): p = 2 σ_s/(DR − 1) [Pa].</summary>
    /// <param name="designStressPa">Design stress, HDS or MRS/C [Pa].</param>
    /// <param name="dimensionRatio">Outside diameter over least wall.</param>
    public static double PlasticPa(double designStressPa, double dimensionRatio) =>
        2 * designStressPa / (dimensionRatio - 1);

    /// <summary>Barlow: p = 2 S t/OD [Pa].</summary>
    /// <param name="stressPa">Stress S [Pa].</param>
    /// <param name="wallM">Wall t [m].</param>
    /// <param name="outsideDiameterM">Outside diameter [m].</param>
    public static double BarlowPa(double stressPa, double wallM, double outsideDiameterM) =>
        2 * stressPa * wallM / outsideDiameterM;

    /// <summary>ASME B31 (B31.3 §304.1.2 with Y = 0.4): p = 2 S t/(OD − 0.8 t) [Pa].</summary>
    /// <param name="stressPa">Allowable stress times weld factor [Pa].</param>
    /// <param name="wallM">Wall left after tolerance, threads and rust [m].</param>
    /// <param name="outsideDiameterM">Outside diameter [m].</param>
    public static double B31Pa(double stressPa, double wallM, double outsideDiameterM) =>
        2 * stressPa * wallM / (outsideDiameterM - 0.8 * wallM);

    /// <summary>
    /// External pressure at which a long round tube folds, 2E/(1 − µ²) (t/D_m)³ [Pa], D_m the mean diameter (S. Timoshenko,
    /// Theory of Elastic Stability; Moser and Folkman Eq. 3.14).
    /// </summary>
    /// <param name="youngPa">Young's modulus [Pa].</param>
    /// <param name="poissonRatio">Poisson's ratio.</param>
    /// <param name="wallM">Wall [m].</param>
    /// <param name="outsideDiameterM">Outside diameter [m].</param>
    public static double CollapsePa(double youngPa, double poissonRatio, double wallM, double outsideDiameterM) =>
        2 * youngPa / (1 - poissonRatio * poissonRatio) * Math.Pow(wallM / (outsideDiameterM - wallM), 3);
}
