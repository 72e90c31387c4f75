using Clackbeat.Hydraulics.Ram;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;

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

    /// <summary>Wave speed that was used [m/s].</summary>
    public required double WaveSpeedMPerS { get; init; }

    /// <summary>Sensor reading at rest under the supply head [Pa gauge].</summary>
    public required double StaticPa { get; init; }

    /// <summary>Sensor reading under the static delivery head [Pa gauge].</summary>
    public required double DeliveryPa { get; init; }

    /// <summary>Sampling rate a record should have at least [Hz].</summary>
    public required double LeastSamplingRateHz { get; init; }

    /// <summary>Works the figures out.</summary>
    /// <param name="site">A site without contradictions.</param>
    /// <returns>The figures; null when there is no wave speed to stand on.</returns>
    public static ExpectedFigures? TryFor(RamSite site)
    {
        if (SiteDefaults.WaveSpeedMPerS(site) is not { } waveSpeed)
        {
            return null;
        }

        var water = SiteDefaults.WaterOf(site);
        var ram = ExpectedRam.For(
            new RamGeometry
            {
                LengthM = site.DrivePipe.LengthM,
                BoreM = site.DrivePipe.BoreM,
                SupplyHeadM = site.Supply.HeadM,
                DeliveryHeadM = site.Delivery.HeadM,
                WaveSpeedMPerS = waveSpeed,
            },
            water,
            SiteDefaults.RoughnessM(site),
            new RamAssumptions { MinorLoss = SiteDefaults.MinorLossOf(site) });
        return new ExpectedFigures
        {
            Ram = ram,
            WaveSpeedMPerS = waveSpeed,
            StaticPa = Head.ToPressurePa(site.Supply.HeadM - site.Sensor.HeightM, water.DensityKgPerM3),
            DeliveryPa = Head.ToPressurePa(site.Delivery.HeadM - site.Sensor.HeightM, water.DensityKgPerM3),
            LeastSamplingRateHz = Math.Max(LeastSamplingHz, 100 * Math.Ceiling(PointsPerPipePeriod / ram.PipePeriodS / 100)),
        };
    }
}
