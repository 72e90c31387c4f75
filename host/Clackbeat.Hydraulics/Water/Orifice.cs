namespace Clackbeat.Hydraulics.Water;

/// <summary>Flow through a small hole, such as a snifter: water out under pressure, air in under suction.</summary>
public static class Orifice
{
    /// <summary>Discharge coefficient of a sharp-edged small hole (ISO 5167-2 tends to 0.60 for small diameter ratios); 0.5 to 0.8 for drilled ones.</summary>
    public const double SharpEdged = 0.6;

    private const double AirGasConstant = 287.05;
    private const double AirIsentropicExponent = 1.4;

    /// <summary>Water through a hole, C_d A √(2 g Δh), with the sign of the head difference [m³/s] (Torricelli).</summary>
    /// <param name="areaM2">Area of the hole [m²].</param>
    /// <param name="headDifferenceM">Head inside less head outside [m].</param>
    /// <param name="dischargeCoefficient">C_d.</param>
    public static double WaterM3PerS(double areaM2, double headDifferenceM, double dischargeCoefficient = SharpEdged) =>
        Math.Sign(headDifferenceM) * dischargeCoefficient * areaM2
        * Math.Sqrt(2 * Constants.GravityMPerS2 * Math.Abs(headDifferenceM));

    /// <summary>
    /// Air drawn in from rest [kg/s], as a perfect gas without heat or friction: it chokes where the inside falls below
    /// 0.528 of the outside (any text on gas dynamics; A. H. Shapiro, 1953, ch. 4). 0 when there is no suction.
    /// </summary>
    /// <param name="areaM2">Area of the hole [m²].</param>
    /// <param name="outsidePa">Pressure outside [Pa absolute].</param>
    /// <param name="insidePa">Pressure inside [Pa absolute].</param>
    /// <param name="outsideC">Temperature outside [°C].</param>
    /// <param name="dischargeCoefficient">C_d.</param>
    public static double AirKgPerS(
        double areaM2, double outsidePa, double insidePa, double outsideC = 15, double dischargeCoefficient = SharpEdged)
    {
        const double k = AirIsentropicExponent;
        if (insidePa >= outsidePa)
        {
            return 0;
        }

        double critical = Math.Pow(2 / (k + 1), k / (k - 1));
        double ratio = Math.Max(insidePa / outsidePa, critical);
        double kelvin = outsideC + 273.15;
        return dischargeCoefficient * areaM2 * outsidePa * Math.Sqrt(
            2 * k / ((k - 1) * AirGasConstant * kelvin) * (Math.Pow(ratio, 2 / k) - Math.Pow(ratio, (k + 1) / k)));
    }
}
