using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.VirtualRam.Tests;

/// <summary>Rams of our own invention, and runs of them.</summary>
internal static class TestRams
{
    internal static RamSite Site(
        PipeMaterial material, double supplyM, double lengthM, double boreM, double deliveryM, double waveSpeed) => new()
        {
            Name = "test",
            Supply = new Supply { HeadM = supplyM, WaterTemperatureC = 12 },
            DrivePipe = new DrivePipe
            {
                Material = material,
                LengthM = lengthM,
                BoreM = boreM,
                WaveSpeedMPerS = waveSpeed,
            },
            Delivery = new Delivery { HeadM = deliveryM },
            Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
        };

    internal static RamSite Steel { get; } = Site(PipeMaterial.GalvanisedSteel, 2.2, 14, 0.052, 17, 1270);

    internal static RamSite Pvc { get; } = Site(PipeMaterial.PvcU, 2.8, 11, 0.041, 16, 450);

    internal static RamDesign Smooth(RamSite site) => RamDesigner.Design(site);

    internal static RamDesign Lively(RamSite site) => RamDesigner.Design(site, RamCharacter.Lively);

    internal static Run RunFor(RamDesign design, double seconds, RamCondition condition = RamCondition.Healthy, double severity = 0.6)
    {
        var simulation = new RamSimulation(
            design.Ram, design.Sensor, new SimulationOptions { Fault = new Fault { Condition = condition, Severity = severity } });
        var beats = new List<VirtualBeat>();
        simulation.BeatEnded += beats.Add;
        foreach (VirtualSample sample in simulation.Samples(seconds))
        {
            Assert.InRange(sample.Counts, 0, design.Sensor.HighestCount);
        }

        return new Run(simulation, beats);
    }

    internal static RamParameters WithoutScatter(RamDesign design) => design.Ram with { BeatScatter = 0 };
}

internal sealed record Run(RamSimulation Simulation, List<VirtualBeat> Beats)
{
    internal RamTotals Totals => Simulation.Totals;

    internal double Irregularity
    {
        get
        {
            double mean = Beats.Average(b => b.IntervalS);
            return Math.Sqrt(Beats.Average(b => (b.IntervalS - mean) * (b.IntervalS - mean))) / mean;
        }
    }
}
