using UnitsNet;

namespace Clackbeat.Hydraulics.Water;

/// <summary>Constants of nature and convention that every formula here shares.</summary>
public static class Constants
{
    /// <summary>Standard acceleration of gravity [m/s²]; exact by the 3rd CGPM, 1901. Real gravity differs by up to 0.3 %.</summary>
    public const double GravityMPerS2 = 9.80665;

    /// <summary>One pound-force per square inch [Pa]: 6894.757 293 168, from the international pound and inch (NIST SP 811:2008, appendix B.8 gives 6894.757).</summary>
    public static readonly double PsiPa = Pressure.FromPoundsForcePerSquareInch(1).Pascals;

    /// <summary>Standard atmosphere [Pa absolute]; exact by the 10th CGPM, 1954.</summary>
    public const double StandardAtmospherePa = 101_325;

    /// <summary>
    /// Mean pressure of the air at an altitude [Pa absolute], International Standard Atmosphere (ISO 2533:1975),
    /// troposphere: p = p0 (1 − 2.25577e−5 z)^5.25588. Weather moves the true value by about ±3 %.
    /// </summary>
    /// <param name="altitudeM">Altitude above sea level [m], −500 to 11 000.</param>
    public static double AtmosphereAtAltitudePa(double altitudeM)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(altitudeM, -500);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(altitudeM, 11_000);
        return StandardAtmospherePa * Math.Pow(1 - 2.25577e-5 * altitudeM, 5.25588);
    }
}
