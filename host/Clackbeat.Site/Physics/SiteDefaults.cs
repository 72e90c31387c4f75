using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Physics;

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

    /// <summary>Mean wave speeds (by wave time) that the spread of the materials allows [m/s]; null when a material or wall is unknown.</summary>
    /// <param name="site">The site.</param>
    /// <param name="water">Its water.</param>
    public static Band? PlausibleWaveSpeedMPerS(RamSite site, WaterProperties water)
    {
        var bands = site.DrivePipe.Sections.Select(s => (s.LengthM, Speed: PlausibleWaveSpeedMPerS(s, water))).ToList();
        if (bands.Any(b => b.Speed is null))
        {
            return null;
        }

        double length = bands.Sum(b => b.LengthM);
        return new Band(length / bands.Sum(b => b.LengthM / b.Speed!.Value.Low), length / bands.Sum(b => b.LengthM / b.Speed!.Value.High));
    }

    /// <summary>Wave speeds the spread of a section's material allows [m/s]; null when material or wall is unknown.</summary>
    /// <param name="section">The section.</param>
    /// <param name="water">The water.</param>
    public static Band? PlausibleWaveSpeedMPerS(PipeSection section, WaterProperties water) =>
        section.WallM is { } wall && MaterialProperties.TryGet(section.Material) is { } material
            ? WaveSpeed.Plausible(water, material, section.BoreM, wall)
            : null;

    /// <summary>Roughness of the drive pipe at the ram [m].</summary>
    public static double RoughnessM(RamSite site) => RoughnessM(site.DrivePipe.AtRam);

    /// <summary>Roughness of a section [m].</summary>
    public static double RoughnessM(PipeSection section) =>
        section.RoughnessM
        ?? MaterialProperties.TryGet(section.Material)?.RoughnessM
        ?? RoughnessOfUnknownM;

    /// <summary>Loss coefficient of entrance, strainer and bends, without the velocity head.</summary>
    public static double MinorLossOf(RamSite site) => site.DrivePipe.MinorLossCoefficient ?? MinorLossCoefficient;
}
