using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using CsCheck;

namespace Clackbeat.Hydraulics.Tests.Pipes;

public class FrictionTests
{
    // Colebrook (J. ICE 11 (1939) 133) is the reference; Haaland (1983) states 1.5 %. Solved here by plain bisection.
    [Fact]
    public void Haaland_stays_within_its_stated_error_of_Colebrook_over_its_whole_range() =>
        Gen.Select(Gen.Double[3.61, 8], Gen.Double[-6, -1.3]).Sample((logRe, logRough) =>
        {
            (double re, double rough) = (Math.Pow(10, logRe), Math.Pow(10, logRough));
            Assert.InRange(Friction.Haaland(re, rough) / Colebrook(re, rough), 0.985, 1.015);
        });

    [Fact]
    public void The_factor_has_no_step_anywhere() =>
        Gen.Select(Gen.Double[1, 7], Gen.Double[0, 0.05]).Sample((logRe, rough) =>
        {
            double re = Math.Pow(10, logRe);
            Assert.InRange(Friction.DarcyFactor(re * 1.0001, rough) / Friction.DarcyFactor(re, rough), 0.999, 1.001);
        });

    [Fact]
    public void Laminar_flow_follows_Poiseuille() =>
        Assert.Equal(64.0 / 1000, Friction.DarcyFactor(1000, 0.01), 1e-12);

    [Fact]
    public void Losses_turn_with_the_flow() => Gen.Double[0, 5].Sample(v =>
        Friction.HeadLossM(0.02, 10, 0.05, -v) == -Friction.HeadLossM(0.02, 10, 0.05, v));

    [Fact]
    public void The_steady_velocity_spends_exactly_the_head_it_was_given() =>
        Gen.Select(Gen.Double[0.3, 20], Gen.Double[1, 100], Gen.Double[0.01, 0.2], Gen.Double[1.5, 20]).Sample((head, length, bore, k) =>
        {
            var water = WaterProperties.At(12);
            double v = Friction.SteadyVelocityMPerS(head, length, bore, 1.5e-4, k, water);
            double re = Friction.Reynolds(v, bore, water.KinematicViscosityM2PerS);
            double spent = Friction.HeadLossM(Friction.DarcyFactor(re, 1.5e-4 / bore), length, bore, v) + k * v * v / (2 * 9.80665);
            Assert.Equal(head, spent, head * 1e-6);
        });

    private static double Colebrook(double re, double rough)
    {
        (double low, double high) = (1e-4, 1.0);
        for (int i = 0; i < 100; i++)
        {
            double f = Math.Sqrt(low * high);
            double residual = 1 / Math.Sqrt(f) + 2 * Math.Log10(rough / 3.7 + 2.51 / (re * Math.Sqrt(f)));
            (low, high) = residual > 0 ? (f, high) : (low, f);
        }

        return Math.Sqrt(low * high);
    }
}
