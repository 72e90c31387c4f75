using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Solver;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>
/// With its waste valve held open the ram is a pipe under a head: Darcy–Weisbach with Colebrook's factor (C. F. Colebrook,
/// J. Inst. Civ. Eng. 11 (1939) 133), solved here by plain iteration.
/// </summary>
public class SteadyFlowTests
{
    [Theory]
    [InlineData(2.2, 14, 0.052)]
    [InlineData(1.0, 30, 0.027)]
    [InlineData(5.0, 20, 0.078)]
    public void Held_open_it_runs_as_Darcy_and_Weisbach_say(double supplyM, double lengthM, double boreM)
    {
        RamSite site = TestRams.Site(Hydraulics.Pipes.PipeMaterial.GalvanisedSteel, supplyM, lengthM, boreM, 6 * supplyM, 1250);
        RamParameters ram = TestRams.Smooth(site).Ram;
        var engine = new RamEngine(ram, new Fault { Condition = RamCondition.StoppedOpen, StopsAtS = 0 }, seed: 1);
        while (engine.TimeS < 40)
        {
            engine.Step();
        }

        double velocity = engine.BodyFlowM3PerS / ram.DrivePipe.AreaM2;
        double factor = Colebrook(
            velocity * boreM / ram.Water.KinematicViscosityM2PerS, ram.DrivePipe.RoughnessM / boreM);
        double lossM = (factor * lengthM / boreM + 1 + ram.Supply.LossCoefficient)
            * velocity * velocity / (2 * Constants.GravityMPerS2);
        // The factor is Haaland's, within 1.5 % of Colebrook's by its own paper.
        Assert.Equal(supplyM, engine.BodyHeadM + lossM, 0.015 * lossM);
        Assert.True(engine.BodyHeadM > 0.02 * supplyM, "The open valve takes a part of the head.");
        Assert.Equal(engine.InflowM3PerS, engine.WasteFlowM3PerS, 1e-6 * engine.InflowM3PerS);
    }

    private static double Colebrook(double reynolds, double relativeRoughness)
    {
        double root = 7.0;
        for (int round = 0; round < 60; round++)
        {
            root = -2 * Math.Log10(relativeRoughness / 3.7 + 2.51 * root / reynolds);
        }

        return 1 / (root * root);
    }
}
