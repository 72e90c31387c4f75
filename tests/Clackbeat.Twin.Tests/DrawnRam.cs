using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Field;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Twin.Tests;

/// <summary>
/// A ram drawn by a number, and its record. Rams from 7000 chose the constants of the twin, rams from 8000 are for tests like these, rams
/// from 9000 for what is reported: none is in two sets.
/// </summary>
internal sealed record DrawnRam(RamSite Site, RamParameters Ram, SensorParameters Sensor, int Number)
{
    internal static DrawnRam Of(int number, PipeMaterial material, RamCharacter character, PipeDetail detail)
    {
        var dice = new Dice(number);
        double head = dice.Log(1.5, 4);
        double bore = dice.Log(0.035, 0.08);
        var site = new RamSite
        {
            Name = "a drawn ram",
            Supply = new Supply { HeadM = head, HeadUncertaintyM = 0.02, WaterTemperatureC = 12 },
            DrivePipe = new DrivePipe([new PipeSection { Material = material, LengthM = dice.Log(8, 18), BoreM = bore, WallM = bore / 12 }]),
            Delivery = new Delivery { HeadM = head * dice.Log(5, 8) },
            Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
        };
        RamDesign design = RamDesigner.Design(site, character, detail);
        RamParameters ram = RamVariation.Of(design.Ram, dice.Between(0.2, 0.7), dice);
        ValveParameters valve = ram.WasteValve;
        double open = valve.OpenAreaM2(valve.TravelM);
        // Nobody knows how much of the loss is in the gap.
        double gap = dice.Between(0.6, 0.95);
        return new DrawnRam(
            site,
            ram with { WasteValve = valve with { GapWidthM = open / Math.Sqrt(gap) / valve.TravelM, PassageAreaM2 = open / Math.Sqrt(1 - gap) } },
            design.Sensor,
            number);
    }

    internal RamAnalysis Analysed(double lengthS)
    {
        VirtualSample[] samples = [.. Simulation(Ram).Samples(lengthS)];
        var analyser = new RamAnalyser(Site);
        analyser.Add([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        return analyser.Finish("drawn");
    }

    /// <summary>What a ram really does.</summary>
    internal RamTotals Truth(RamParameters ram, double lengthS)
    {
        RamSimulation simulation = Simulation(ram);
        foreach (VirtualSample _ in simulation.Samples(lengthS))
        {
        }

        return simulation.Totals;
    }

    private RamSimulation Simulation(RamParameters ram) => new(ram, Sensor, new SimulationOptions { Seed = Number });
}
