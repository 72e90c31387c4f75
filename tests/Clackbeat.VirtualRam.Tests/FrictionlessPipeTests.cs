using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Solver;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>
/// A lossless pipe whose end is shut at once. Joukowsky 1898 and the textbook solution (Wylie and Streeter 1993, ch. 1): the
/// head at the end jumps between H + aV/g and H − aV/g, a period lasts 4L/a, and nothing decays.
/// </summary>
public class FrictionlessPipeTests
{
    private const double WaveSpeed = 1200;
    private const double Length = 30;
    private const double Supply = 50;
    private const double Velocity = 0.3;

    [Fact]
    public void Shutting_the_end_gives_a_square_wave_of_Joukowskys_height_and_period_four_L_over_a_for_a_hundred_periods()
    {
        DrivePipe pipe = Pipe(retardedCompliance: 0);
        double area = Math.PI / 4 * 0.05 * 0.05;
        pipe.StartAt(Velocity * area);
        double jump = WaveSpeed * Velocity / Constants.GravityMPerS2;
        double period = 4 * Length / WaveSpeed;
        for (int step = 1; step * pipe.StepS < 100 * period; step++)
        {
            double head = pipe.Advance();
            pipe.Finish(head, 0);
            double phase = step * pipe.StepS / period % 1;
            double fromEdge = Math.Min(Math.Abs(phase - 0.5), Math.Min(phase, 1 - phase)) * period;
            if (fromEdge > 1.5 * pipe.StepS)
            {
                Assert.Equal(phase < 0.5 ? Supply + jump : Supply - jump, head, 1e-6);
            }
        }
    }

    [Fact]
    public void Slow_give_calms_the_wave_but_keeps_its_water()
    {
        DrivePipe pipe = Pipe(retardedCompliance: 0.05);
        pipe.StartAt(Velocity * 0.002);
        double before = pipe.StoredM3();
        double inflow = 0.0;
        double late = 0.0;
        for (int step = 1; step * pipe.StepS < 5; step++)
        {
            double old = pipe.InflowM3PerS;
            pipe.Finish(pipe.Advance(), 0);
            // The scheme stores by the trapezium rule in time; the end was shut at the first step.
            inflow += pipe.StepS * 0.5 * (old + pipe.InflowM3PerS);
            late = pipe.InflowM3PerS;
        }

        double shut = 0.5 * pipe.StepS * Velocity * 0.002;
        Assert.Equal(pipe.StoredM3() - before, inflow - shut, 1e-12);
        Assert.InRange(Math.Abs(late), 0, 0.05 * Velocity * 0.002);
    }

    private static DrivePipe Pipe(double retardedCompliance)
    {
        RamParameters design = TestRams.Smooth(TestRams.Steel).Ram;
        return new DrivePipe(design with
        {
            Water = design.Water with { KinematicViscosityM2PerS = 0 },
            // A level pipe, so that the low half of the wave stays above vapour pressure all along it.
            Supply = new SupplyParameters { HeadM = Supply, LossCoefficient = -1, SubmergenceM = Supply },
            DrivePipe = new PipeParameters
            {
                LengthM = Length,
                BoreM = 0.05,
                RoughnessM = 0,
                WaveSpeedMPerS = WaveSpeed,
                RetardedCompliance = retardedCompliance,
                RetardationTimeS = 10e-3,
            },
        });
    }
}
