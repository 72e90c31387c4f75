using Clackbeat.Hydraulics.Ram;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Site.Check;

/// <summary>What a site file lets one expect of the ram and of its sensor, so that a first measurement has something to stand beside.</summary>
public sealed record ExpectedFigures
{
    // A spike on a ram's body lasts one to two milliseconds: against 500 Hz records, 100 Hz records miss 30 % of the
    // peak (decimation of measured ram data, AguaClara, Cornell University), and 500 Hz misses some of it too.
    private const double LeastSamplingHz = 1000;

    // Ten points a pipe period draw the steps of the plateau; ten samples a swing are the usual rule for time-domain work.
    private const double PointsPerPipePeriod = 10;

    private ExpectedFigures()
    {
    }

    /// <summary>The ram's beat, flows, efficiency and peak ceiling.</summary>
    public required ExpectedRam Ram { get; init; }

    /// <summary>Water, wave speed and geometry they stand on.</summary>
    public required SiteHydraulics Hydraulics { get; init; }

    /// <summary>What sensor, resistors, tap line and battery come to.</summary>
    public required SensingFigures Sensing { get; init; }

    /// <summary>Sensor reading at rest under the supply head [Pa gauge].</summary>
    public required double StaticPa { get; init; }

    /// <summary>Sensor reading under the static delivery head [Pa gauge].</summary>
    public required double DeliveryPa { get; init; }

    /// <summary>Sampling rate a record should have at least [Hz].</summary>
    public required double LeastSamplingRateHz { get; init; }

    /// <summary>Works the figures out.</summary>
    /// <param name="site">A site without contradictions.</param>
    public static ExpectedFigures For(RamSite site)
    {
        var hydraulics = SiteHydraulics.Of(site);
        var ram = ExpectedRam.For(
            hydraulics.Geometry,
            hydraulics.Water,
            new RamAssumptions { MinorLoss = SiteDefaults.MinorLossOf(site) });
        return new ExpectedFigures
        {
            Ram = ram,
            Hydraulics = hydraulics,
            Sensing = SensingFigures.For(site, hydraulics.Water, ram.PeakCeilingPa.High),
            StaticPa = hydraulics.PressurePa(site.Supply.HeadM - site.Sensor.HeightM),
            DeliveryPa = hydraulics.PressurePa(site.Delivery.HeadM - site.Sensor.HeightM),
            LeastSamplingRateHz = Math.Max(LeastSamplingHz, 100 * Math.Ceiling(PointsPerPipePeriod / ram.PipePeriodS / 100)),
        };
    }
}
