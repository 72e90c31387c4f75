using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Check;

/// <summary>What is taken for keys a site file leaves out; one place, so that every figure takes the same.</summary>
public static class SiteDefaults
{
    /// <summary>Loss coefficient of a clean strainer and a sharp entrance, without the velocity head. Common practice.</summary>
    public const double MinorLossCoefficient = 0.8;

    // Between new steel and smooth plastic; only for a material nothing is known of.
    private const double RoughnessOfUnknownM = 0.05e-3;

    /// <summary>The water, at the file's temperature or the usual one.</summary>
    public static WaterProperties WaterOf(RamSite site) =>
        WaterProperties.At(site.Supply.WaterTemperatureC ?? WaterProperties.DefaultTemperatureC);

    /// <summary>Wave speed by material, bore and wall [m/s]; null when material or wall is unknown.</summary>
    public static double? ComputedWaveSpeedMPerS(RamSite site) =>
        site.DrivePipe.WallM is { } wall && MaterialProperties.TryGet(site.DrivePipe.Material) is { } material
            ? WaveSpeed.InPipe(
                WaterOf(site), material, site.DrivePipe.BoreM, wall, site.DrivePipe.Restraint ?? PipeRestraint.AnchoredThroughout)
            : null;

    /// <summary>The file's wave speed, or else the computed one [m/s]; null when there is neither.</summary>
    public static double? WaveSpeedMPerS(RamSite site) => site.DrivePipe.WaveSpeedMPerS ?? ComputedWaveSpeedMPerS(site);

    /// <summary>Wave speeds the spread of the material allows [m/s]; null when material or wall is unknown.</summary>
    public static Band? PlausibleWaveSpeedMPerS(RamSite site) =>
        site.DrivePipe.WallM is { } wall && MaterialProperties.TryGet(site.DrivePipe.Material) is { } material
            ? WaveSpeed.Plausible(WaterOf(site), material, site.DrivePipe.BoreM, wall)
            : null;

    /// <summary>Roughness of the drive pipe [m].</summary>
    public static double RoughnessM(RamSite site) =>
        site.DrivePipe.RoughnessM
        ?? MaterialProperties.TryGet(site.DrivePipe.Material)?.RoughnessM
        ?? RoughnessOfUnknownM;

    /// <summary>Loss coefficient of entrance, strainer and bends, without the velocity head.</summary>
    public static double MinorLossOf(RamSite site) => site.DrivePipe.MinorLossCoefficient ?? MinorLossCoefficient;
}
