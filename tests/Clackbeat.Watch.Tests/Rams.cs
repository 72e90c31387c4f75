using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.Watch.Tests;

/// <summary>A virtual ram's samples, which know nothing of the code under test.</summary>
internal static class Rams
{
    public const double RateHz = 1000;

    public static RamSite Site { get; } = SiteFile.Parse(SiteTemplate.Text(Units.Metric), "template");

    public static (double[] TimesS, double[] PressuresPa) Samples(
        double lengthS, Fault? fault = null, double rateHz = RateHz, int seed = 1)
    {
        RamDesign design = RamDesigner.Design(Site);
        var ram = new RamSimulation(
            design.Ram, design.Sensor with { RateHz = rateHz }, new SimulationOptions { Fault = fault ?? Fault.None, Seed = seed });
        VirtualSample[] samples = [.. ram.Samples(lengthS)];
        return ([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
    }
}
