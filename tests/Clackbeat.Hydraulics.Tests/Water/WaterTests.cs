using Clackbeat.Hydraulics.Water;
using CsCheck;

namespace Clackbeat.Hydraulics.Tests.Water;

public class WaterTests
{
    private static readonly Gen<double> Temperature = Gen.Double[0, 40];

    [Fact]
    public void Head_and_pressure_undo_each_other() =>
        Gen.Select(Gen.Double[-10, 300], Temperature).Sample((head, t) =>
        {
            double density = WaterProperties.At(t).DensityKgPerM3;
            Assert.Equal(head, Head.FromPressureM(Head.ToPressurePa(head, density), density), 1e-9);
        });

    [Fact]
    public void Warmer_water_is_thinner_faster_for_sound_and_nearer_to_boiling() =>
        Gen.Select(Temperature, Temperature).Where((a, b) => a + 0.01 < b).Sample((cold, warm) =>
        {
            (WaterProperties? c, WaterProperties? w) = (WaterProperties.At(cold), WaterProperties.At(warm));
            Assert.True(w.KinematicViscosityM2PerS < c.KinematicViscosityM2PerS);
            Assert.True(w.SoundSpeedMPerS > c.SoundSpeedMPerS);
            Assert.True(w.VapourPressurePa > c.VapourPressurePa);
        });

    // Water's density maximum is at 3.98 °C.
    [Fact]
    public void Water_is_heaviest_at_four_degrees() => Temperature.Sample(t =>
        WaterProperties.At(t).DensityKgPerM3 <= WaterProperties.At(3.98).DensityKgPerM3 + 1e-5);

    [Theory]
    [InlineData(-0.1)]
    [InlineData(40.1)]
    [InlineData(double.NaN)]
    public void Temperatures_outside_the_stated_range_are_refused(double t) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => WaterProperties.At(t));
}
