using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;

namespace Clackbeat.Site;

/// <summary>Where a site's wave speed comes from.</summary>
public enum WaveSpeedSource
{
    /// <summary>The site file gives it.</summary>
    Given,

    /// <summary>Computed from material, bore and wall.</summary>
    Computed,

    /// <summary>Computed with a wall of a tenth of the bore, since the file gives none.</summary>
    WallAssumed,

    /// <summary>A round figure: the material's stiffness is unknown.</summary>
    Assumed,
}

/// <summary>What follows from a site file alone: the water, the wave speed and the ram's geometry.</summary>
public sealed record SiteHydraulics
{
    // Between plastic (300-500 m/s) and metal (1200-1350 m/s) pipes; marked as assumed wherever it is used.
    private const double UnknownWaveSpeedMPerS = 800;

    /// <summary>The water at the site's temperature.</summary>
    public required WaterProperties Water { get; init; }

    /// <summary>Wave speed a [m/s].</summary>
    public required double WaveSpeedMPerS { get; init; }

    /// <summary>Where the wave speed comes from.</summary>
    public required WaveSpeedSource WaveSpeedSource { get; init; }

    /// <summary>Lengths, heads and wave speed.</summary>
    public required RamGeometry Geometry { get; init; }

    /// <summary>Pipe period 2L/a [s].</summary>
    public double PipePeriodS => Surge.PipePeriodS(Geometry.LengthM, WaveSpeedMPerS);

    /// <summary>Works them out.</summary>
    public static SiteHydraulics Of(RamSite site)
    {
        WaterProperties water = WaterProperties.At(site.Supply.WaterTemperatureC ?? WaterProperties.DefaultTemperatureC);
        (double waveSpeed, WaveSpeedSource source) = WaveSpeed(site.DrivePipe, water);
        return new SiteHydraulics
        {
            Water = water,
            WaveSpeedMPerS = waveSpeed,
            WaveSpeedSource = source,
            Geometry = new RamGeometry
            {
                LengthM = site.DrivePipe.LengthM,
                BoreM = site.DrivePipe.BoreM,
                SupplyHeadM = site.Supply.HeadM,
                DeliveryHeadM = site.Delivery.HeadM,
                WaveSpeedMPerS = waveSpeed,
            },
        };
    }

    /// <summary>Gauge pressure of a head of this water [Pa].</summary>
    public double PressurePa(double headM) => Head.ToPressurePa(headM, Water.DensityKgPerM3);

    private static (double MPerS, WaveSpeedSource Source) WaveSpeed(DrivePipe pipe, WaterProperties water)
    {
        if (pipe.WaveSpeedMPerS is { } given)
        {
            return (given, WaveSpeedSource.Given);
        }

        if (MaterialProperties.TryGet(pipe.Material) is not { } wall)
        {
            return (UnknownWaveSpeedMPerS, WaveSpeedSource.Assumed);
        }

        double? wallM = pipe.WallM ?? (0.5 * (pipe.OutsideDiameterM - pipe.BoreM));
        double computed = Hydraulics.Transients.WaveSpeed.InPipe(
            water, wall, pipe.BoreM, wallM ?? (0.1 * pipe.BoreM), pipe.Restraint ?? PipeRestraint.AnchoredThroughout);
        return (computed, wallM is null ? WaveSpeedSource.WallAssumed : WaveSpeedSource.Computed);
    }
}
