using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Signal.Beats;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.Benchmarks;

/// <summary>The ram that everything is timed on, and its trace.</summary>
internal static class Bench
{
    public static RamSite Site { get; } = new()
    {
        Name = "a ram to time by",
        Supply = new Supply { HeadM = 2.5, WaterTemperatureC = 12 },
        DrivePipe = new DrivePipe { Material = PipeMaterial.GalvanisedSteel, LengthM = 15, BoreM = 0.0525, WallM = 0.0039 },
        Delivery = new Delivery { HeadM = 20 },
        Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
    };

    /// <summary>Its magnitudes.</summary>
    public static RamScale Scale => ScaleOf(Site);

    /// <summary>A ram's magnitudes.</summary>
    public static RamScale ScaleOf(RamSite site)
    {
        var hydraulics = SiteHydraulics.Of(site);
        return new RamScale(hydraulics.PressurePa(site.Supply.HeadM), hydraulics.PressurePa(site.Delivery.HeadM), hydraulics.PipePeriodS);
    }

    /// <summary>A trace of the virtual ram at 1000 samples a second, with the noise and the jitter of its sensor.</summary>
    public static (double[] TimesS, double[] PressuresPa) Trace(double lengthS) => Trace(lengthS, Site, RamCharacter.Smooth, 1);

    /// <summary>A trace of any virtual ram at 1000 samples a second, with its sensor's jitter and so many times its noise.</summary>
    public static (double[] TimesS, double[] PressuresPa) Trace(double lengthS, RamSite site, RamCharacter character, double noise)
    {
        RamDesign design = RamDesigner.Design(site, character);
        SensorParameters sensor = design.Sensor with { RateHz = 1000, NoisePa = noise * design.Sensor.NoisePa };
        var ram = new RamSimulation(design.Ram, sensor, new SimulationOptions { Seed = 1 });
        (List<double> times, List<double> pressures) = ([], []);
        foreach (VirtualSample sample in ram.Samples(lengthS))
        {
            times.Add(sample.TimeS);
            pressures.Add(sample.PressurePa);
        }

        return ([.. times], [.. pressures]);
    }
}
