namespace Clackbeat.Hydraulics.Water;

/// <summary>The published correlations behind <see cref="WaterProperties"/>.</summary>
internal static class WaterFormulas
{
    // W. Wagner et al., IAPWS Industrial Formulation 1997, region 4 (saturation line), Table 34.
    private static readonly double[] Saturation =
    [
        0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
        0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
    ];

    // IAPWS SR6-08(2011), Supplementary Release on Properties of Liquid Water at 0.1 MPa, Eq. 8.
    private static readonly (double A, double B)[] Viscosity =
        [(280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0)];

    /// <summary>
    /// Density at one atmosphere [kg/m³]. G. S. Kell, J. Chem. Eng. Data 20 (1975) 97, doi 10.1021/je60064a005;
    /// 0 to 150 °C, within 0.01 kg/m³ of today's standard between 0 and 40 °C.
    /// </summary>
    internal static double DensityKgPerM3(double t) =>
        (999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6
            + t * (105.56302e-9 - t * 280.54253e-12))))) / (1 + 16.879850e-3 * t);

    /// <summary>
    /// Sound speed at one atmosphere [m/s]. W. Marczak, J. Acoust. Soc. Am. 102 (1997) 2776, doi 10.1121/1.420332;
    /// 0 to 95 °C, standard deviation 0.02 m/s.
    /// </summary>
    internal static double SoundSpeedMPerS(double t) =>
        1.402385e3 + t * (5.038813 + t * (-5.799136e-2 + t * (3.287156e-4
            + t * (-1.398845e-6 + t * 2.787860e-9))));

    /// <summary>Vapour pressure [Pa absolute], IAPWS-IF97 Eq. 30; 273.15 to 647.096 K, within 0.025 %.</summary>
    internal static double VapourPressurePa(double kelvin)
    {
        double[]? n = Saturation;
        double theta = kelvin + n[8] / (kelvin - n[9]);
        double a = theta * theta + n[0] * theta + n[1];
        double b = n[2] * theta * theta + n[3] * theta + n[4];
        double c = n[5] * theta * theta + n[6] * theta + n[7];
        return 1e6 * Math.Pow(2 * c / (-b + Math.Sqrt(b * b - 4 * a * c)), 4);
    }

    /// <summary>Dynamic viscosity at 0.1 MPa [Pa·s], IAPWS SR6-08; 253 to 383 K, within 1 %.</summary>
    internal static double DynamicViscosityPaS(double kelvin)
    {
        double sum = 0.0;
        foreach ((double a, double b) in Viscosity)
        {
            sum += a * Math.Pow(kelvin / 300, b);
        }

        return sum * 1e-6;
    }
}
