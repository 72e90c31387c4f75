using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Signal.Flow;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>The pipe of sections and creep, beside the plain pipe, a slow twin and what must hold for any pipe.</summary>
public sealed class PipeGridTests
{
    private const double G = 9.80665;

    [Theory]
    [InlineData(1250)]
    [InlineData(440)]
    [InlineData(250)]
    public void A_pipe_cut_into_alike_sections_is_the_pipe(double waveSpeed)
    {
        var plain = new ColumnModel(15, waveSpeed, 2.5, 0.02, 0.08, 0.35);
        ColumnModel cut = plain with { Shape = new PipeShape([new PipePiece(6, waveSpeed, 1, 0.4), new PipePiece(9, waveSpeed, 1, 0.6)]) };
        (double[] times, double[] heads) = Swing(2.5);
        double[] expected = Invert(plain, times, heads, 0.4);
        double[] found = Invert(cut, times, heads, 0.4);

        // The two start their first period from different guesses of the waves that were there before; afterwards they agree
        // but for where friction is placed.
        int after = (int)(2000 * plain.PeriodS);
        double offset = found.Zip(expected, (a, b) => a - b).Skip(after).Average();
        double rms = Math.Sqrt(found.Zip(expected, (a, b) => a - b - offset).Skip(after).Average(d => d * d));
        Assert.InRange(rms / (expected.Max() - expected.Min()), 0, 0.02);
    }

    [Fact]
    public void Momentum_is_conserved_through_sections_of_two_bores()
    {
        // With no losses the velocity gained is the integral of the head's deficit over Σ L A_ram/(g A) (Newton's second law).
        const double ratio = 0.05 * 0.05 / (0.06 * 0.06);
        var model = new ColumnModel(21, 1250, 2.5, 0, 0, 0)
        {
            Shape = new PipeShape([new PipePiece(9, 1250, ratio, 0.3), new PipePiece(12, 1250, 1, 0.7)]),
        };
        double[] times = [.. Enumerable.Range(0, 4000).Select(i => i * 1e-3)];
        double[] heads = [.. times.Select(t => t is < 0.1 or > 3 ? 2.5 : 2.5 + Math.Sin(9 * t))];
        double[] found = Invert(model, times, heads, 0);

        double gained = G / ((9 * ratio) + 12) * heads.Sum(h => (2.5 - h) * 1e-3);
        Assert.Equal(gained, found[^400..].Average(), 0.003);
    }

    [Fact]
    public void A_joint_sends_back_the_share_that_the_impedances_tell()
    {
        // A step of head comes back from the joint after 2 L₂/a as r ΔH, r = (B₁ − B₂)/(B₁ + B₂) (Wylie and Streeter 1993, ch. 3),
        // and changes the velocity at a body of fixed head by 2 r ΔH/B₂.
        const double wide = 0.5;
        const double step = 1;
        var model = new ColumnModel(30, 1000, 5, 0, 0, 0)
        {
            Shape = new PipeShape([new PipePiece(20, 1000, wide, 0.5), new PipePiece(10, 1000, 1, 0.5)]),
        };
        double[] times = [.. Enumerable.Range(0, 400).Select(i => i * 5e-4)];
        double[] heads = [.. times.Select(t => t < 0.1 ? 5 : 5 + step)];
        double[] found = Invert(model, times, heads, 0);

        double impedance = 1000 / G;
        double reflected = (wide - 1) / (wide + 1);
        Assert.Equal(-step / impedance, At(0.110), 0.02 * step / impedance);
        Assert.Equal((-step / impedance) + (2 * reflected * step / impedance), At(0.130), 0.05 * step / impedance);

        double At(double timeS) => found[(int)Math.Round(timeS / 5e-4)];
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.3)]
    public void Slopes_are_what_small_changes_make(double creep)
    {
        var model = new ColumnModel(21, 400, 2.5, 0.02, 0.08, 0.35)
        {
            Shape = new PipeShape(
            [
                new PipePiece(9, 400, 0.7, 0.3) { Creep = [new CreepElement(0.05, creep)] },
                new PipePiece(12, 400, 1, 0.7) { Creep = [new CreepElement(0.5, creep)] },
            ]),
        };
        (double[] times, double[] heads) = Swing(2.5);
        double[] velocity = new double[times.Length];
        var sensitivities = new ColumnSensitivity[times.Length];
        ColumnInversion.Run(times, heads, model.WithLoss(1.3), 0.4, 1.3, velocity, sensitivities);

        const double move = 1e-3;
        Assert.Equal(Invert(model.WithLoss(1.3), times, heads, 0.4), velocity);
        Near(Invert(model.WithLoss(1.3) with { SupplyHeadM = 2.5 + move }, times, heads, 0.4), s => s.Supply);
        Near(Invert(model.WithLoss(1.3 + move), times, heads, 0.4), s => s.Losses);
        Near(Invert(model.WithLoss(1.3), times, heads, 0.4 + move), s => s.Start);

        void Near(double[] moved, Func<ColumnSensitivity, double> of) => Assert.Equal(
            moved.Zip(velocity, (m, v) => (m - v) / move), sensitivities.Select(of), (a, b) => Math.Abs(a - b) < 1e-6 * (1 + Math.Abs(a)));
    }

    private static double[] Invert(ColumnModel model, double[] times, double[] heads, double start)
    {
        double[] found = new double[times.Length];
        ColumnInversion.Run(times, heads, model, start, found);
        return found;
    }

    /// <summary>A head that rests at the intake's and then swings as in a beat.</summary>
    private static (double[] TimesS, double[] HeadsM) Swing(double restM)
    {
        double[] times = [.. Enumerable.Range(0, 2000).Select(i => i * 1e-3)];
        return (times, [.. times.Select(t => restM + (8 * Math.Pow(Math.Max(0, Math.Sin(5 * t)), 8)) - Math.Exp(-(t - 1.1) * (t - 1.1) / 0.0025))]);
    }
}
