namespace Clackbeat.Hydraulics.Water;

/// <summary>Gauge pressure of a water column and the column's height, p = ρ g h.</summary>
public static class Head
{
    /// <summary>Gauge pressure at the foot of a column [Pa].</summary>
    /// <param name="headM">Height [m]; negative is suction.</param>
    /// <param name="densityKgPerM3">Density of the water [kg/m³].</param>
    public static double ToPressurePa(double headM, double densityKgPerM3) =>
        densityKgPerM3 * Constants.GravityMPerS2 * headM;

    /// <summary>Height of the column that a gauge pressure holds up [m].</summary>
    /// <param name="pressurePa">Gauge pressure [Pa].</param>
    /// <param name="densityKgPerM3">Density of the water [kg/m³].</param>
    public static double FromPressureM(double pressurePa, double densityKgPerM3) =>
        pressurePa / (densityKgPerM3 * Constants.GravityMPerS2);
}
