using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.VirtualRam.Solver;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>Conservation laws hold whatever the ram does.</summary>
public class BalanceTests
{
    public static TheoryData<RamCharacter, RamCondition> Runs() => new()
    {
        { RamCharacter.Smooth, RamCondition.Healthy },
        { RamCharacter.Lively, RamCondition.Healthy },
        { RamCharacter.Lively, RamCondition.DeliveryValveLate },
        { RamCharacter.Smooth, RamCondition.WasteValveLeaking },
        { RamCharacter.Lively, RamCondition.DeliveryValveLeaking },
    };

    [Theory]
    [MemberData(nameof(Runs))]
    public void Water_in_is_water_out_and_water_kept_to_a_millionth(RamCharacter character, RamCondition condition)
    {
        var fault = new Fault { Condition = condition };
        RamParameters ram = FaultEffects.Apply(RamDesigner.Design(TestRams.Steel, character).Ram, fault);
        var engine = new RamEngine(ram, fault, seed: 3);
        double before = engine.StoredM3;
        (double drawn, double left) = (0.0, 0.0);
        bool cavities = false;
        while (engine.TimeS < 60)
        {
            engine.Step();
            drawn += engine.StepS * engine.InflowM3PerS;
            left += engine.StepS * (engine.WasteFlowM3PerS + engine.DeliveryFlowM3PerS);
            cavities |= engine.Cavitating;
        }

        Assert.True(drawn > 0.02, "It beat for most of a minute.");
        Assert.Equal(drawn, left + engine.StoredM3 - before, 1e-6 * drawn);
    }

    [Fact]
    public void Cavities_in_the_pipe_lose_no_water()
    {
        // A high lift on a stiff pipe: the recoil tears the column.
        RamParameters ram = RamDesigner.Design(TestRams.Site(PipeMaterial.StainlessSteel, 4, 20, 0.05, 50, 1300)).Ram;
        var engine = new RamEngine(ram, Fault.None, seed: 1);
        double before = engine.StoredM3;
        (double drawn, double left, int torn) = (0.0, 0.0, 0);
        while (engine.TimeS < 60)
        {
            engine.Step();
            drawn += engine.StepS * engine.InflowM3PerS;
            left += engine.StepS * (engine.WasteFlowM3PerS + engine.DeliveryFlowM3PerS);
            torn += engine.Cavitating ? 1 : 0;
        }

        Assert.True(torn > 100, "Vapour stood in the pipe.");
        Assert.Equal(drawn, left + engine.StoredM3 - before, 1e-6 * drawn);
    }

    [Theory]
    [InlineData(RamCharacter.Smooth)]
    [InlineData(RamCharacter.Lively)]
    public void Over_whole_beats_the_head_that_is_left_of_the_supply_is_the_pipes_loss(RamCharacter character)
    {
        // Momentum of the column: the mean of H − h − (f L/D + 1 + K) V|V|/2g over whole beats is zero.
        RamDesign design = RamDesigner.Design(TestRams.Steel, character, PipeDetail.Elastic);
        var engine = new RamEngine(design.Ram with { BeatScatter = 0 }, Fault.None, seed: 1, startS: -20);
        PipeParameters pipe = design.Ram.DrivePipe;
        (double start, double lastSeat, double sum, double sumAtSeat) = (double.NaN, double.NaN, 0.0, 0.0);
        while (engine.TimeS < 30)
        {
            engine.Step();
            double velocity = engine.BodyFlowM3PerS / pipe.AreaM2;
            double reynolds = Math.Max(1, Friction.Reynolds(velocity, pipe.BoreM, design.Ram.Water.KinematicViscosityM2PerS));
            double loss = Friction.DarcyFactor(reynolds, pipe.RoughnessM / pipe.BoreM) * pipe.LengthM / pipe.BoreM
                + design.Ram.Supply.LossCoefficient + (velocity > 0 ? 1 : 0);
            sum += engine.StepS * (design.Ram.Supply.HeadM - engine.BodyHeadM
                - loss * velocity * Math.Abs(velocity) / (2 * Constants.GravityMPerS2));
            if (engine.WasteSeatedAtS is not null && engine.TimeS > 0 && !(engine.TimeS - lastSeat < 0.2))
            {
                (start, sum) = double.IsNaN(start) ? (engine.TimeS, 0) : (start, sum);
                (lastSeat, sumAtSeat) = (engine.TimeS, sum);
            }
        }

        Assert.Equal(0, sumAtSeat / (lastSeat - start), 0.01 * design.Ram.Supply.HeadM);
    }

    [Fact]
    public void The_body_never_falls_below_vapour_pressure()
    {
        RamDesign design = RamDesigner.Design(TestRams.Site(PipeMaterial.StainlessSteel, 4, 20, 0.05, 50, 1300));
        Run run = TestRams.RunFor(design, 10);
        double vapourPa = design.Ram.Water.VapourPressurePa - design.Ram.Water.AtmospherePa;
        Assert.All(run.Beats, b => Assert.True(b.SuctionPa >= vapourPa));
        Assert.Contains(run.Beats, b => b.SuctionPa < 0.5 * vapourPa);
    }

    [Fact]
    public void What_passes_the_delivery_valve_leaves_the_main()
    {
        RamDesign design = TestRams.Smooth(TestRams.Steel);
        var simulation = new RamSimulation(design.Ram, design.Sensor, new SimulationOptions { WarmUpS = 40 });
        (double valve, double outlet) = (0.0, 0.0);
        simulation.Stepped += e =>
        {
            if (e.TimeS > 0)
            {
                valve += e.DeliveryFlowM3PerS;
                outlet += e.OutletFlowM3PerS;
            }
        };
        foreach (VirtualSample unused in simulation.Samples(60))
        {
            Assert.True(unused.TimeS < 60);
        }

        Assert.Equal(valve, outlet, 0.02 * valve);
    }
}
