using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Physics;

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

/// <summary>A section of the drive pipe with its wave speed.</summary>
/// <param name="Section">The section as the file has it.</param>
/// <param name="Reach">Length, bore, wave speed and roughness.</param>
/// <param name="Source">Where the wave speed comes from.</param>
public sealed record SectionHydraulics(PipeSection Section, PipeReach Reach, WaveSpeedSource Source);

/// <summary>What follows from a site file alone: the water, the wave speeds and the ram's geometry.</summary>
public sealed record SiteHydraulics
{
    // Between plastic (300-500 m/s) and metal (1200-1350 m/s) pipes; marked as assumed wherever it is used.
    private const double UnknownWaveSpeedMPerS = 800;

    /// <summary>The water at the site's temperature.</summary>
    public required WaterProperties Water { get; init; }

    /// <summary>The drive pipe's sections, from the intake to the ram.</summary>
    public required IReadOnlyList<SectionHydraulics> Sections { get; init; }

    /// <summary>The sections in a row: inertia, wave time, knock.</summary>
    public required SeriesPipe Pipe { get; init; }

    /// <summary>Wave speed a [m/s]; of several sections the mean by wave time, L/Σ(L/a).</summary>
    public required double WaveSpeedMPerS { get; init; }

    /// <summary>Where the wave speed comes from; of several sections the least certain source.</summary>
    public required WaveSpeedSource WaveSpeedSource { get; init; }

    /// <summary>Lengths, heads and wave speed.</summary>
    public required RamGeometry Geometry { get; init; }

    /// <summary>Pipe period, Σ 2L/a [s].</summary>
    public double PipePeriodS => Pipe.PipePeriodS;

    /// <summary>Works them out.</summary>
    public static SiteHydraulics Of(RamSite site)
    {
        var water = WaterProperties.At(site.Supply.WaterTemperatureC ?? WaterProperties.DefaultTemperatureC);
        SectionHydraulics[] sections = [.. site.DrivePipe.Sections.Select(s => SectionOf(s, site.DrivePipe, water))];
        var pipe = new SeriesPipe(sections.Select(s => s.Reach));
        return new SiteHydraulics
        {
            Water = water,
            Sections = sections,
            Pipe = pipe,
            WaveSpeedMPerS = pipe.MeanWaveSpeedMPerS,
            WaveSpeedSource = sections.Max(s => s.Source),
            Geometry = RamGeometry.Of(pipe, site.Supply.HeadM, site.Delivery.HeadM),
        };
    }

    /// <summary>Gauge pressure of a head of this water [Pa].</summary>
    public double PressurePa(double headM) => Head.ToPressurePa(headM, Water.DensityKgPerM3);

    private static SectionHydraulics SectionOf(PipeSection section, DrivePipe pipe, WaterProperties water)
    {
        (double waveSpeed, WaveSpeedSource source) = WaveSpeed(section, pipe.Restraint, water);
        var reach = new PipeReach(section.LengthM, section.BoreM, waveSpeed) { RoughnessM = SiteDefaults.RoughnessM(section) };
        return new SectionHydraulics(section, reach, source);
    }

    private static (double MPerS, WaveSpeedSource Source) WaveSpeed(PipeSection pipe, PipeRestraint? restraint, WaterProperties water)
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
            water, wall, pipe.BoreM, wallM ?? (0.1 * pipe.BoreM), restraint ?? PipeRestraint.AnchoredThroughout);
        return (computed, wallM is null ? WaveSpeedSource.WallAssumed : WaveSpeedSource.Computed);
    }
}
