using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Commands;

/// <summary>A virtual ram of a site with its sensor on a virtual logger's converter, and the truth about it.</summary>
internal sealed class VirtualChain
{
    private readonly List<VirtualBeat> beats = [];
    private readonly RamSimulation ram;
    private readonly RamDesign design;
    private readonly SensorParameters sensor;
    private readonly SimulationOptions options;
    private RamSimulation running;
    private RamSimulation? changed;
    private double offsetS;
    private double lastS;

    /// <summary>Makes the ram and lets it warm up.</summary>
    public VirtualChain(RamSite site, RamDesign design, SensorParameters sensor, SimulationOptions options)
    {
        (this.design, this.sensor, this.options) = (design, RamConverter.Continuous(sensor), options);
        running = ram = new RamSimulation(design.Ram, this.sensor, options);
        ram.BeatEnded += beats.Add;
        Source = RamConverter.Of(Next, new SensorModel { Conversion = SiteSensing.ConversionOf(site) }, sensor.NoisePa, options.Seed);
    }

    /// <summary>What the logger's converter reads.</summary>
    public IConverterSource Source { get; }

    /// <summary>The ram's whole beats so far.</summary>
    public IReadOnlyList<VirtualBeat> Beats => beats;

    /// <summary>Sums over them.</summary>
    public RamTotals Totals => ram.Totals;

    /// <summary>Puts another ram in the first one's place, as a keeper does who shuts the water off, turns the valve and starts it again.</summary>
    public void Change(Func<RamParameters, RamParameters> change) => Interlocked.Exchange(
        ref changed, new RamSimulation(change(design.Ram), sensor, options with { FromRest = true }));

    private VirtualSample Next()
    {
        if (Interlocked.Exchange(ref changed, null) is { } other)
        {
            (running, offsetS) = (other, lastS + (1 / RamConverter.PointsHz));
        }

        VirtualSample sample = running.Next();
        lastS = offsetS + sample.TimeS;
        return sample with { TimeS = lastS };
    }
}
