using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Checks.Water;

public class WaterChecks
{
    // London South Bank University, Water Structure and Science, http://www1.lsbu.ac.uk/water/data1.html, 0.1 MPa.
    // Tolerances are half to one unit of the last printed digit.
    [Theory(DisplayName = "LSBU water table at 0.1 MPa: density, compressibility, sound speed, vapour pressure")]
    [InlineData(0, 999.8, 0.5086, 1402, 0.611)]
    [InlineData(10, 999.7, 0.4776, 1448, 1.228)]
    [InlineData(20, 998.2, 0.4559, 1483, 2.339)]
    [InlineData(30, 995.7, 0.4410, 1510, 4.247)]
    [InlineData(40, 992.2, 0.4312, 1530, 7.385)]
    public void Lsbu(double t, double density, double compressibilityPerGPa, double soundSpeed, double vapourKPa)
    {
        var water = WaterProperties.At(t);
        Assert.Equal(density, water.DensityKgPerM3, 0.06);
        Assert.Equal(soundSpeed, water.SoundSpeedMPerS, 1.2);
        // 0.25 %: the table's own sound speed and compressibility disagree by that much (ρc² against 1/κ at 40 °C).
        Approximately.Equal(1e9 / compressibilityPerGPa, water.BulkModulusPa, 0.0025);
        Approximately.Equal(vapourKPa * 1e3, water.VapourPressurePa, 0.001);
    }

    // Rounded engineering table, https://edm44.github.io/hydr-watres-book/properties-of-water.html. It is 0.3 to 1 % off
    // the isentropic modulus from 10 to 30 °C and 2.7 % high at 0 °C.
    [Theory(DisplayName = "Engineering bulk modulus table is met within its own rounding")]
    [InlineData(0, 2.02, 0.03)]
    [InlineData(10, 2.10, 0.011)]
    [InlineData(20, 2.18, 0.011)]
    [InlineData(30, 2.25, 0.011)]
    [InlineData(40, 2.28, 0.02)]
    public void EngineeringModulus(double t, double modulusGPa, double tolerance) =>
        Approximately.Equal(modulusGPa * 1e9, WaterProperties.At(t).BulkModulusPa, tolerance);

    // IAPWS-IF97 (2007 release), Table 35: saturation pressure at 300 K.
    [Fact(DisplayName = "IAPWS-IF97: vapour pressure at 300 K to nine digits")]
    public void VapourPressureAt300K() =>
        Approximately.Equal(0.353658941e-2 * 1e6, WaterProperties.At(300 - 273.15).VapourPressurePa, 1e-9);

    // IAPWS-IF97 Table 5: v = 0.100215168e-2 m³/kg, w = 1507.73921 m/s at 300 K and 3 MPa, about the highest pressure a
    // ram meets. Ours is at 0.1 MPa; the modulus carries the density there, and the rest is the drift the record states.
    [Fact(DisplayName = "IAPWS-IF97 at 3 MPa: density follows from ours by compression, sound speed is 0.4 % higher")]
    public void PressureOfARam()
    {
        var water = WaterProperties.At(300 - 273.15);
        double compressed = water.DensityKgPerM3 * (1 + 2.9e6 / water.BulkModulusPa);
        Approximately.Equal(1 / 0.100215168e-2, compressed, 2e-4);
        Approximately.Equal(1507.73921, water.SoundSpeedMPerS, 0.0045);
    }

    // IAPWS R12-08, the international standard value: 1.0016 mPa·s at 20 °C (ISO/TR 3666). From memory.
    [Fact(DisplayName = "Viscosity of water at 20 °C is 1.0016 mPa·s (ISO/TR 3666)")]
    public void Viscosity() => Approximately.Equal(1.0016e-3, WaterProperties.At(20).DynamicViscosityPaS, 2e-4);

    // NIST SP 811: 1 foot of water (39.2 °F) = 2988.98 Pa. Water at 4 °C, 999.97 kg/m³.
    [Fact(DisplayName = "A foot of water at 39.2 °F is 2988.98 Pa (NIST SP 811)")]
    public void FootOfWater() =>
        Approximately.Equal(2988.98, Head.ToPressurePa(Units.FootM, WaterProperties.At(4).DensityKgPerM3), 2e-5);

    // From NIST SP 811: 1 psi = 6894.76 Pa. The derived 0.4335275 psi/ft and 2.3066587 ft/psi belong to conventional water of
    // 1000 kg/m³, not to the 39.2 °F water of the line above.
    [Fact(DisplayName = "A psi is 2.3066587 ft of conventional water (NIST SP 811)")]
    public void PsiInFeet()
    {
        Approximately.Equal(2.3066587, Head.FromPressureM(6894.76, 1000) / Units.FootM, 1e-6);
        Approximately.Equal(0.4335275, Head.ToPressurePa(Units.FootM, 1000) / 6894.76, 1e-6);
    }

    // Conventional metre of water, 1000 kg/m³ × 9.80665 m/s² = 9806.65 Pa exactly (from memory); at 20 °C 9789.0 Pa and
    // 1.41978 psi by hand from the LSBU density 998.2.
    [Fact(DisplayName = "A metre of water: 9806.65 Pa conventional, 9789 Pa and 1.4198 psi at 20 °C")]
    public void MetreOfWater()
    {
        Assert.Equal(9806.65, Head.ToPressurePa(1, 1000), 1e-9);
        double at20 = Head.ToPressurePa(1, WaterProperties.At(20).DensityKgPerM3);
        Approximately.Equal(9789.0, at20, 5e-5);
        Approximately.Equal(1.41978, at20 / Units.PsiPa, 5e-5);
    }

    // ICAO Doc 7488 / ISO 2533: 1000 m 89 875 Pa, 3000 m 70 109 Pa (ISA table values, from memory).
    [Theory(DisplayName = "Standard atmosphere at altitude (ISO 2533)")]
    [InlineData(0, 101_325)]
    [InlineData(1000, 89_875)]
    [InlineData(3000, 70_109)]
    public void Altitude(double altitudeM, double pressurePa) =>
        Approximately.Equal(pressurePa, Constants.AtmosphereAtAltitudePa(altitudeM), 3e-4);
}
