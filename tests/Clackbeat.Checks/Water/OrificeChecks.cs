using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Checks.Water;

public class OrificeChecks
{
    // Torricelli by hand: √(2·9.80665·24) = 21.696 m/s; 2 mm: 3.14159e-6 m²; times 0.6: 40.9 mL/s.
    [Fact(DisplayName = "A 2 mm snifter under 24 m spits 40.9 mL/s")]
    public void Spit() => Approximately.Equal(40.9e-6, Orifice.WaterM3PerS(Math.PI * 1e-6, 24), 1e-3);

    // Choked air, any gas dynamics text: m = 0.040418 p0 A/√T0 (SI). 1 mm² at 101 325 Pa and 288.15 K: 2.4126e-4 kg/s,
    // the same however deep the vacuum.
    [Fact(DisplayName = "Air chokes in a hole at 0.2413 g/s a square millimetre")]
    public void Choked()
    {
        Approximately.Equal(2.4126e-4, Orifice.AirKgPerS(1e-6, 101_325, 20_000, 15, 1), 1e-3);
        Approximately.Equal(2.4126e-4, Orifice.AirKgPerS(1e-6, 101_325, 50_000, 15, 1), 1e-3);
    }

    // Small differences: the incompressible √(2 Δp/ρ); 1 kPa at 1.2250 kg/m³: 40.41 m/s, 0.0495 g/s a mm²; compressibility
    // takes off about half a per cent.
    [Fact(DisplayName = "A kilopascal of suction draws 0.049 g/s of air a square millimetre")]
    public void Gentle() => Approximately.Equal(4.95e-5, Orifice.AirKgPerS(1e-6, 101_325, 100_325, 15, 1), 0.01);

    [Fact(DisplayName = "No suction, no air")]
    public void None() => Assert.Equal(0, Orifice.AirKgPerS(1e-6, 101_325, 101_325));
}
