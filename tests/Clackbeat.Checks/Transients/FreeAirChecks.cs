using Clackbeat.Hydraulics.Transients;
using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Checks.Transients;

public class FreeAirChecks
{
    private static readonly WaterProperties Water = WaterProperties.At(20);

    // Wood's homogeneous mixture in unconfined water, isothermal, by an independent script with K 2.19 GPa, ρ 998.2.
    [Theory(DisplayName = "Wave speed with free air by Wood's formula")]
    [InlineData(0, 1481, 1481)]
    [InlineData(1e-5, 1343, 1455)]
    [InlineData(1e-4, 833, 1268)]
    [InlineData(1e-3, 312, 687)]
    [InlineData(1e-2, 101, 243)]
    public void Wood(double fraction, double atAtmosphere, double at600KPa)
    {
        Approximately.Equal(atAtmosphere, FreeAir.WaveSpeedMPerS(fraction, Water.SoundSpeedMPerS, Water, 101_325), 0.005);
        Approximately.Equal(at600KPa, FreeAir.WaveSpeedMPerS(fraction, Water.SoundSpeedMPerS, Water, 600e3), 0.005);
    }

    // I. S. Pearsall, The velocity of water hammer waves, IMechE 1965 (abstract): one part of air in ten thousand by volume
    // lowers the wave speed by about 50 %; temperature moves it by about 1 % per 5 °C.
    [Fact(DisplayName = "Pearsall: one part of air in 10 000 about halves the wave speed; 5 °C moves it 1 %")]
    public void Pearsall()
    {
        double share = FreeAir.WaveSpeedMPerS(1e-4, Water.SoundSpeedMPerS, Water, 101_325) / Water.SoundSpeedMPerS;
        Assert.InRange(share, 0.45, 0.60);
        double perFive = Math.Pow(WaterProperties.At(30).SoundSpeedMPerS / WaterProperties.At(0).SoundSpeedMPerS, 1 / 6.0) - 1;
        Assert.InRange(perFive, 0.007, 0.015);
    }
}
