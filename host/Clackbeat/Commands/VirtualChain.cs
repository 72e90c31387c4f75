using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Commands;

/// <summary>A virtual ram of a site with its sensor on a virtual logger's converter, and the truth about it.</summary>
internal sealed class VirtualChain
{
    private readonly List<VirtualBeat> beats = [];
    private readonly RamSimulation ram;

    /// <summary>Makes the ram and lets it warm up.</summary>
    public VirtualChain(RamSite site, RamDesign design, SensorParameters sensor, SimulationOptions options)
    {
        ram = new RamSimulation(design.Ram, RamConverter.Continuous(sensor), options);
        ram.BeatEnded += beats.Add;
        Source = RamConverter.Of(ram, new SensorModel { Path = SiteSensing.PathOf(site) }, sensor.NoisePa, options.Seed);
    }

    /// <summary>What the logger's converter reads.</summary>
    public IConverterSource Source { get; }

    /// <summary>The ram's whole beats so far.</summary>
    public IReadOnlyList<VirtualBeat> Beats => beats;

    /// <summary>Sums over them.</summary>
    public RamTotals Totals => ram.Totals;
}
