using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Solver;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>
/// The closed-form cycle of a vertical ram (Cornell AguaClara ram pump team, Summer 2021 report): drive pipe 1.56 m of 1 inch,
/// delivery at 6 m, terminal velocity 1.603 m/s. Speeding up v = v_t tanh(g t/v_t), slowing down dv/dt = −g (z3 − z1)/L; at
/// closing 0.615275 v_t and opening at rest the report gives 57.8677 mL/s. Its parts (0.1171 s, 0.0353 s, 8.82 mL a cycle)
/// were recomputed from its formulas by an independent script.
/// </summary>
/// <remarks>The report's column is rigid: here the pipe is made so stiff that a wave crosses it in a twentieth of a millisecond.</remarks>
public class ClosedFormCycleTests
{
    private const double Length = 1.56;
    private const double Lift = 6;
    private const double Terminal = 1.603;
    private const double Closing = 0.615275 * Terminal;
    private const double Area = Math.PI / 4 * 0.0254 * 0.0254;

    [Fact]
    public void A_rigid_column_with_ideal_valves_runs_the_published_cycle()
    {
        (double openS, double deliveryS, double deliveredM3) = Cycle(waveSpeed: 30_000);
        Assert.Equal(0.1171, openS, 0.0006);
        Assert.Equal(0.0353, deliveryS, 0.0004);
        Assert.Equal(57.8677e-6, deliveredM3 / (openS + deliveryS), 0.6e-6);
    }

    [Fact]
    public void The_elastic_pipe_of_the_report_stays_near_it()
    {
        // Theory of the same report gives over 500 m/s for its PVC pipe; waves then come in steps of a sixth of the closing velocity.
        (double openS, double deliveryS, double deliveredM3) = Cycle(waveSpeed: 553);
        Assert.Equal(57.8677e-6, deliveredM3 / (openS + deliveryS), 6e-6);
    }

    private static (double OpenS, double DeliveryS, double DeliveredM3) Cycle(double waveSpeed)
    {
        RamParameters design = TestRams.Smooth(TestRams.Steel).Ram;
        var pipe = new DrivePipe(design with
        {
            Water = design.Water with { KinematicViscosityM2PerS = 0 },
            // All of the loss that limits the velocity sits in the open waste valve, as in the report's formula for slowing down.
            Supply = new SupplyParameters { HeadM = Length, LossCoefficient = -1 },
            DrivePipe = new PipeParameters
            {
                LengthM = Length,
                BoreM = 0.0254,
                RoughnessM = 0,
                WaveSpeedMPerS = waveSpeed,
            },
            LongestStepS = 1e-5,
        });
        double valveLoss = Length / (Terminal * Area * Terminal * Area);
        double b = pipe.ImpedanceSPerM2;
        double openS = 0.0;
        double flow = 0.0;
        while (flow < Closing * Area)
        {
            double arriving = pipe.Advance();
            flow = 2 * arriving / (b + Math.Sqrt(b * b + 4 * valveLoss * arriving));
            pipe.Finish(valveLoss * flow * flow, flow);
            openS += pipe.StepS;
        }

        double deliveryS = 0.0;
        double delivered = 0.0;
        while (flow > 0)
        {
            flow = (pipe.Advance() - Lift) / b;
            pipe.Finish(Lift, flow);
            deliveryS += pipe.StepS;
            delivered += pipe.StepS * Math.Max(flow, 0);
        }

        return (openS, deliveryS, delivered);
    }
}
