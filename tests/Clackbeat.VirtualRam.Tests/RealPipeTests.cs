using System.Numerics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Solver;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>
/// What real pipes have besides elasticity, each alone on a pipe between a still level and a shut or driven end, against closed forms.
/// </summary>
public class RealPipeTests
{
    private const double Length = 30;
    private const double Bore = 0.05;
    private const double Area = Math.PI / 4 * Bore * Bore;
    private const double Supply = 50;

    // A standing wave of frequency ω in a wall of complex compliance 1 + Σ χ/(1 + iωτ) decays over a period by
    // exp(−π J″/J′) (any text on linear viscoelasticity; J. D. Ferry, 1980, ch. 1), with J′ = 1 + Σ χ/(1 + ω²τ²) and
    // J″ = Σ χ ωτ/(1 + ω²τ²); its period is 4L/a √J′. ω follows from itself.
    [Theory]
    [InlineData(0.05, 0.15)]
    [InlineData(0.05, 0.05)]
    [InlineData(0.5, 0.3)]
    public void Creep_damps_and_slows_the_wave_as_linear_viscoelasticity_says(double tauS, double share)
    {
        const double a = 300;
        DrivePipe pipe = Pipe(a, p => p with { Creep = [new CreepElement(tauS, share)] });
        double elastic = 4 * Length / a;
        (double real, double loss, double period) = (1.0, 0.0, elastic);
        for (int round = 0; round < 20; round++)
        {
            double wt = 2 * Math.PI / period * tauS;
            (real, loss) = (1 + share / (1 + wt * wt), share * wt / (1 + wt * wt));
            period = elastic * Math.Sqrt(real);
        }

        (List<double> periods, List<double> decays) = Swings(pipe, elastic, 6);
        Assert.Equal(period, periods.Skip(1).Average(), 0.01 * period);
        // The damping couples into the stiffness by (loss)²/8 only; 5 % of the exponent.
        Assert.Equal(Math.Exp(-Math.PI * loss / real), decays.Skip(1).Average(), 0.05 * Math.PI * loss / real);
    }

    // A. B. Wood: 1/a² = 1/a0² + ρ φ/p, p what the gas bears. The swing is small against p, so one speed holds.
    [Theory]
    [InlineData(1e-4)]
    [InlineData(1e-3)]
    public void Gas_along_the_pipe_slows_small_waves_as_Woods_rule_says(double share)
    {
        const double a = 1200;
        RamParameters ram = Ram(a, p => p with { GasShare = share });
        double speed = ram.WaveSpeedAt(Supply);
        (List<double> periods, List<double> _) = Swings(new DrivePipe(ram), 4 * Length / speed, 4, flow: 0.002 * Area);
        Assert.Equal(4 * Length / speed, periods.Average(), 0.01 * 4 * Length / speed);
    }

    [Fact]
    public void One_bubbly_pipe_is_slow_at_low_and_fast_at_high_pressure()
    {
        // By hand at 0.12 % and 1 atm: under 1 m of head 1/a² = 1/1270² + 999.5 · 1.2e-3 · 101325/(111.1e3)², a = 309 m/s;
        // under 20 m, 1/1270² + 999.5 · 1.2e-3 · 101325/(297.4e3)², a = 705 m/s; vapour bears 1.4 kPa of it.
        RamParameters ram = Ram(1270, p => p with { GasShare = 1.2e-3 });
        Assert.Equal(309, ram.WaveSpeedAt(1), 4.0);
        Assert.Equal(705, ram.WaveSpeedAt(20), 4.0);
    }

    [Fact]
    public void Gas_and_sections_lose_no_water()
    {
        RamParameters ram = Ram(300, p => p with { GasShare = 5e-4, LengthM = 12, Creep = [new CreepElement(0.05, 0.15)] });
        ram = ram with { Upstream = [ram.DrivePipe with { BoreM = 0.07, LengthM = 18, WaveSpeedMPerS = 420 }], UnsteadyFriction = 1 };
        var pipe = new DrivePipe(ram);
        double before = pipe.StoredM3();
        (double inflow, double outflow) = (0.0, 0.0);
        for (int step = 1; step * pipe.StepS < 3; step++)
        {
            (double oldIn, double oldOut) = (pipe.InflowM3PerS, pipe.EndFlowM3PerS);
            // The end lets out a third of what a free outlet would, then is shut.
            double arriving = pipe.Advance();
            double q = step * pipe.StepS < 1 ? arriving / pipe.ImpedanceSPerM2 / 3 : 0;
            pipe.Finish(arriving - pipe.ImpedanceSPerM2 * q, q);
            inflow += 0.5 * pipe.StepS * (oldIn + pipe.InflowM3PerS);
            outflow += 0.5 * pipe.StepS * (oldOut + pipe.EndFlowM3PerS);
        }

        Assert.True(outflow > 1e-3);
        Assert.Equal(inflow - outflow, pipe.StoredM3() - before, 1e-3 * outflow);
    }

    // Two reaches ring at the root of tan(ωL1/a1) tan(ωL2/a2) = B2/B1 (Wylie and Streeter 1993, ch. 12): 15 m each at 1200 m/s,
    // bores 80 and 40 mm: atan 2 = 1.10715 = ω · 12.5 ms, 70.94 ms.
    [Fact]
    public void Two_sections_ring_at_the_root_of_their_frequency_equation()
    {
        RamParameters ram = Ram(1200, p => p with { BoreM = 0.04, LengthM = 15 });
        ram = ram with { Upstream = [ram.DrivePipe with { BoreM = 0.08 }] };
        var pipe = new DrivePipe(ram);
        Assert.Equal(0.07094, PeriodOf(pipe, 0.07094), 0.0004);
    }

    // Joukowsky at the ram's own section, then the joint's echo: the head after it is B2 Q (1 + 2r), r = (B1 − B2)/(B1 + B2) = −0.6.
    [Fact]
    public void A_joint_throws_back_its_share_of_the_knock()
    {
        const double flow = 2e-4;
        RamParameters ram = Ram(1200, p => p with { BoreM = 0.04, LengthM = 15 });
        ram = ram with { Upstream = [ram.DrivePipe with { BoreM = 0.08 }] };
        var pipe = new DrivePipe(ram);
        pipe.StartAt(flow);
        double jump = pipe.ImpedanceSPerM2 * flow;
        (double first, double second) = (0.0, 0.0);
        for (int step = 1; step * pipe.StepS < 0.045; step++)
        {
            double head = pipe.Advance();
            pipe.Finish(head, 0);
            first = Math.Abs(step * pipe.StepS - 0.012) < pipe.StepS ? head - Supply : first;
            second = Math.Abs(step * pipe.StepS - 0.037) < pipe.StepS ? head - Supply : second;
        }

        Assert.Equal(jump, first, 1e-6);
        Assert.Equal(-0.2 * jump, second, 1e-6);
    }

    // The slope of the energy line gains k/g ∂V/∂t while a column speeds up evenly: inertia is 1 + k of itself.
    [Fact]
    public void Unsteady_friction_is_extra_inertia_while_the_column_speeds_up()
    {
        double Gained(double unsteady)
        {
            RamParameters ram = Ram(30_000, p => p) with { UnsteadyFriction = unsteady };
            ram = ram with { Water = ram.Water with { KinematicViscosityM2PerS = 1e-6 }, Supply = ram.Supply with { HeadM = 1 } };
            var pipe = new DrivePipe(ram);
            pipe.StartAt(1 * Area);
            (int step, int start) = (0, 0);
            while (pipe.EndFlowM3PerS < 1.1 * Area)
            {
                // The end's head sinks over a hundred pipe periods, so that no wave is left: a wave's front counts twice.
                double head = Math.Max(0, 1 - step * pipe.StepS / 0.2);
                pipe.Finish(head, (pipe.Advance() - head) / pipe.ImpedanceSPerM2);
                step++;
                start = pipe.EndFlowM3PerS < 1.03 * Area ? step : start;
            }

            Assert.True(start * pipe.StepS > 0.2);
            return (step - start) * pipe.StepS;
        }

        double plain = Gained(0);
        // Re = 5.25e4: κ = log10(14.3/Re^0.05) = 0.9193, C* = 7.41/Re^κ = 3.39e-4, k = 0.0092. Steady friction eats a third of the drive.
        Assert.InRange(Gained(1) / plain - 1, 0.0085, 0.0100);
    }

    // 2π √(L A_s/(g A)) (Wylie and Streeter 1993, ch. 11), with the pipe shut and no loss.
    [Fact]
    public void A_stand_pipe_swings_at_the_period_of_its_mass_oscillation()
    {
        var stand = new StandPipeParameters { AreaM2 = 0.02, FeedLengthM = 26, FeedAreaM2 = 0.003, FeedLoss = 0 };
        var intake = new Intake(new SupplyParameters { HeadM = 3, LossCoefficient = 0.5, StandPipe = stand }, Area, 1e-3);
        var crossings = new List<double>();
        intake.Advance(0.5);
        double before = intake.LevelM;
        for (int step = 1; step < 200_000; step++)
        {
            intake.Advance(0);
            if (before < 3 && intake.LevelM >= 3)
            {
                crossings.Add(step * 1e-3);
            }

            before = intake.LevelM;
        }

        double period = (crossings[^1] - crossings[0]) / (crossings.Count - 1);
        Assert.Equal(MassOscillation.PeriodS(26, 0.003, 0.02), period, 0.01);
    }

    private static RamParameters Ram(double waveSpeed, Func<PipeParameters, PipeParameters> change)
    {
        RamParameters design = TestRams.Smooth(TestRams.Steel).Ram;
        return design with
        {
            Water = design.Water with { KinematicViscosityM2PerS = 0 },
            UnsteadyFriction = 0,
            // A level pipe, so that the low half of the wave stays above vapour pressure all along it.
            Supply = new SupplyParameters { HeadM = Supply, LossCoefficient = -1, SubmergenceM = Supply },
            DrivePipe = change(new PipeParameters { LengthM = Length, BoreM = Bore, RoughnessM = 0, WaveSpeedMPerS = waveSpeed }),
        };
    }

    private static DrivePipe Pipe(double waveSpeed, Func<PipeParameters, PipeParameters> change) => new(Ram(waveSpeed, change));

    /// <summary>Periods and decays a period of the swing of a shut end, by its first harmonic over each elastic period.</summary>
    private static (List<double> Periods, List<double> Decays) Swings(DrivePipe pipe, double guessS, int count, double flow = 0.05 * Area)
    {
        pipe.StartAt(flow);
        var heads = new List<double>();
        for (int step = 1; step * pipe.StepS < (count + 1.5) * guessS; step++)
        {
            double head = pipe.Advance();
            pipe.Finish(head, 0);
            heads.Add(head - Supply);
        }

        // The first harmonic, seen through a window of a period: its phase tells the period, its size the decay.
        int window = (int)Math.Round(guessS / pipe.StepS);
        var phasors = Enumerable.Range(0, count).Select(i => Harmonic(heads, i * window, window)).ToList();
        var turns = phasors.Zip(phasors.Skip(1), (x, y) => y / x).ToList();
        return ([.. turns.Select(t => window * pipe.StepS / (1 + (t.Phase / (2 * Math.PI))))], [.. turns.Select(t => t.Magnitude)]);
    }

    private static System.Numerics.Complex Harmonic(List<double> heads, int from, int window)
    {
        Complex sum = System.Numerics.Complex.Zero;
        for (int i = 0; i < window; i++)
        {
            // A Hann window keeps the neighbours out.
            sum += heads[from + i] * (1 - Math.Cos(2 * Math.PI * i / window))
                * System.Numerics.Complex.Exp(new System.Numerics.Complex(0, -2 * Math.PI * i / window));
        }

        return sum;
    }

    /// <summary>The period near a guess at which a long record of the shut end swings most.</summary>
    private static double PeriodOf(DrivePipe pipe, double guessS)
    {
        pipe.StartAt(0.05 * Area);
        var heads = new List<double>();
        for (int step = 1; step * pipe.StepS < 60 * guessS; step++)
        {
            double head = pipe.Advance();
            pipe.Finish(head, 0);
            heads.Add(head - Supply);
        }

        double Size(double periodS)
        {
            Complex sum = System.Numerics.Complex.Zero;
            for (int i = 0; i < heads.Count; i++)
            {
                sum += heads[i] * (1 - Math.Cos(2 * Math.PI * i / heads.Count))
                    * System.Numerics.Complex.Exp(new System.Numerics.Complex(0, -2 * Math.PI * i * pipe.StepS / periodS));
            }

            return sum.Magnitude;
        }

        return Enumerable.Range(-100, 201).Select(i => guessS * (1 + (i * 0.0005))).MaxBy(Size);
    }
}
