using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Hydraulics.Water;
using CsCheck;

namespace Clackbeat.Hydraulics.Tests.Transients;

public class WaveSpeedTests
{
    private static readonly WaterProperties Water = WaterProperties.At(12);
    private static readonly Gen<PipeRestraint> Restraint = Gen.OneOf(Enum.GetValues<PipeRestraint>());
    private static readonly Gen<MaterialProperties> Wall = Gen.OneOf(
        [.. Enum.GetValues<PipeMaterial>().Select(MaterialProperties.TryGet).OfType<MaterialProperties>()]);

    [Fact]
    public void A_pipe_never_carries_a_wave_faster_than_open_water() =>
        Gen.Select(Wall, Restraint, Gen.Double[0.01, 0.5], Gen.Double[0.002, 0.4]).Sample((wall, restraint, bore, share) =>
        {
            double speed = WaveSpeed.InPipe(Water, wall, bore, bore * share, restraint);
            Assert.InRange(speed, 50, Water.SoundSpeedMPerS);
        });

    [Fact]
    public void A_thicker_wall_is_a_faster_pipe() =>
        Gen.Select(Wall, Restraint, Gen.Double[0.005, 0.1], Gen.Double[1.01, 2]).Sample((wall, restraint, share, thicker) =>
            WaveSpeed.InPipe(Water, wall, 1, share * thicker, restraint) > WaveSpeed.InPipe(Water, wall, 1, share, restraint));

    [Fact]
    public void The_thick_wall_factor_runs_into_the_thin_one() =>
        Gen.Select(Restraint, Gen.Double[0, 0.5]).Sample((restraint, poisson) => Math.Abs(
            WaveSpeed.ThickWallFactor(restraint, poisson, 1, 1e-6) - WaveSpeed.ThinWallFactor(restraint, poisson)) < 1e-5);

    [Fact]
    public void The_plausible_band_holds_every_way_of_anchoring() =>
        Gen.Select(Wall, Restraint, Gen.Double[0.01, 0.2]).Sample((wall, restraint, share) =>
            WaveSpeed.Plausible(Water, wall, 0.05, 0.05 * share)
                .Contains(WaveSpeed.InPipe(Water, wall, 0.05, 0.05 * share, restraint)));

    [Fact]
    public void Air_found_from_a_wave_speed_is_the_air_that_was_put_in() =>
        Gen.Select(Gen.Double[-7, -0.9], Gen.Double[200, 1450], Gen.Double[5e3, 2e6]).Sample((exponent, airFree, pressure) =>
        {
            double air = Math.Pow(10, exponent);
            double speed = FreeAir.WaveSpeedMPerS(air, airFree, Water, pressure);
            // Only where air softens the mixture; at high pressure in a soft pipe its lightness can win.
            if (speed < airFree * (1 - 1e-6))
            {
                Assert.Equal(air, FreeAir.ImpliedFraction(speed, airFree, Water, pressure)!.Value, air * 1e-4 + 1e-10);
            }
        });

    [Theory]
    [InlineData(1200)]
    [InlineData(1300)]
    [InlineData(0)]
    [InlineData(double.NaN)]
    public void No_air_is_implied_by_a_speed_that_is_not_low(double measured) =>
        Assert.Null(FreeAir.ImpliedFraction(measured, 1200, Water, 2e5));

    // A mixture of water and air at 1 bar has its least speed near half and half, some 20 m/s (Wood 1930).
    [Fact]
    public void A_speed_below_every_mixture_s_implies_nothing() =>
        Assert.Null(FreeAir.ImpliedFraction(10, 1200, Water, 101_325));
}
