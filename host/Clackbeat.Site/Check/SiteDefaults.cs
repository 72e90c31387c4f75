using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Check;

/// <summary>
/// What is taken for the drive pipe's losses where a site file leaves them out, so that every figure takes the same.
/// Water and wave speed are in <see cref="SiteHydraulics"/>.
/// </summary>
public static class SiteDefaults
{
    /// <summary>Loss coefficient of a clean strainer and a sharp entrance, without the velocity head. Common practice.</summary>
    public const double MinorLossCoefficient = 0.8;

    // Between new steel and smooth plastic; only for a material nothing is known of.
    private const double RoughnessOfUnknownM = 0.05e-3;

    /// <summary>Wave speeds the spread of the material allows [m/s]; null when material or wall is unknown.</summary>
    /// <param name="site">The site.</param>
    /// <param name="water">Its water.</param>
    public static Band? PlausibleWaveSpeedMPerS(RamSite site, WaterProperties water) =>
        site.DrivePipe.WallM is { } wall && MaterialProperties.TryGet(site.DrivePipe.Material) is { } material
            ? WaveSpeed.Plausible(water, material, site.DrivePipe.BoreM, wall)
            : null;

    /// <summary>Roughness of the drive pipe [m].</summary>
    public static double RoughnessM(RamSite site) =>
        site.DrivePipe.RoughnessM
        ?? MaterialProperties.TryGet(site.DrivePipe.Material)?.RoughnessM
        ?? RoughnessOfUnknownM;

    /// <summary>Loss coefficient of entrance, strainer and bends, without the velocity head.</summary>
    public static double MinorLossOf(RamSite site) => site.DrivePipe.MinorLossCoefficient ?? MinorLossCoefficient;
}
