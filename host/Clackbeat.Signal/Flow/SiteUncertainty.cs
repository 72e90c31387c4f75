using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Flow;

/// <summary>
/// Standard uncertainties of what the site file says (JCGM 100:2008 §4.3, type B). Where the file gives none, common
/// practice: a tape along a pipe with bends is good to 1 %, a pipe's bore to 1 % of its table value, a level to 2 cm or
/// 1 % (all as expanded uncertainties, from memory). A sensor's data sheet gives a limit of error.
/// </summary>
internal sealed record SiteUncertainty
{
    /// <summary>Of the length, over the length.</summary>
    public required double Length { get; init; }

    /// <summary>Of the bore, over the bore.</summary>
    public double Bore { get; init; } = 0.005;

    /// <summary>Of the supply head [m].</summary>
    public required double SupplyM { get; init; }

    /// <summary>Of the sensor's span, over the span.</summary>
    public required double Gain { get; init; }

    /// <summary>Of the wave speed, over the wave speed.</summary>
    public required double WaveSpeed { get; init; }

    /// <summary>The uncertainties of a site.</summary>
    public static SiteUncertainty Of(RamSite site, WaveSpeedSource source) => new()
    {
        Length = site.DrivePipe.LengthUncertaintyM is { } u ? 0.5 * u / site.DrivePipe.LengthM : 0.005,
        SupplyM = 0.5 * (site.Supply.HeadUncertaintyM ?? Math.Max(0.02, 0.01 * site.Supply.HeadM)),
        Gain = SensorAccuracy.Gain(site.Sensor),
        WaveSpeed = source switch
        {
            // A metal's stiffness is known; a plastic's depends on temperature, age and how fast it is loaded.
            WaveSpeedSource.Given => 0.03,
            WaveSpeedSource.Computed => IsPlastic(site.DrivePipe.Material) ? 0.05 : 0.02,
            WaveSpeedSource.WallAssumed => 0.15,
            _ => 0.3,
        },
    };

    private static bool IsPlastic(PipeMaterial material) => material is PipeMaterial.PvcU or PipeMaterial.PvcO
        or PipeMaterial.Pe100 or PipeMaterial.Pe80 or PipeMaterial.Pe4710 or PipeMaterial.Abs;
}
