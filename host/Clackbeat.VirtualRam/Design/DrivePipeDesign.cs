using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Design;

/// <summary>The drive pipe's sections and the water before them, from the site file.</summary>
internal static class DrivePipeDesign
{
    /// <summary>Walls of a feed pipe: smooth plastic; its roughness matters little [m].</summary>
    private const double FeedRoughnessM = 1e-5;

    /// <summary>Losses of a feed pipe at its entrance and exit, on its velocity head.</summary>
    private const double FeedEnds = 1.5;

    /// <summary>Where a stand pipe's feed isn't described: as long as the drive pipe, and half as wide again.</summary>
    private const double FeedBoreShare = 1.5;

    internal static IReadOnlyList<PipeParameters> Sections(SiteHydraulics hydraulics, PipeDetail detail) =>
        [.. hydraulics.Sections.Select(s => Section(s, hydraulics.Water, detail))];

    /// <summary>The stand pipe of the site; null without one.</summary>
    internal static StandPipeParameters? StandPipe(RamSite site, WaterProperties water)
    {
        if (site.Supply.StandPipe is not { } stand)
        {
            return null;
        }

        double length = stand.FeedLengthM ?? site.DrivePipe.LengthM;
        double bore = stand.FeedBoreM ?? (FeedBoreShare * site.DrivePipe.Sections[0].BoreM);
        // The friction factor of a metre a second; a feed runs at about that or less.
        double factor = Friction.DarcyFactor(Friction.Reynolds(1, bore, water.KinematicViscosityM2PerS), FeedRoughnessM / bore);
        return new StandPipeParameters
        {
            AreaM2 = Math.PI / 4 * stand.BoreM * stand.BoreM,
            FeedLengthM = length,
            FeedAreaM2 = Math.PI / 4 * bore * bore,
            FeedLoss = factor * length / bore + FeedEnds,
        };
    }

    private static PipeParameters Section(SectionHydraulics section, WaterProperties water, PipeDetail detail)
    {
        PipeReach reach = section.Reach;
        var creeps = WallCreep.TryGet(section.Section.Material);
        return new PipeParameters
        {
            LengthM = reach.LengthM,
            BoreM = reach.BoreM,
            RoughnessM = reach.RoughnessM,
            WaveSpeedMPerS = reach.WaveSpeedMPerS,
            RetardedCompliance = Bubbles(reach.WaveSpeedMPerS),
            Creep = creeps is not null && detail == PipeDetail.Real ? Creep(creeps, reach, water) : [],
        };
    }

    /// <summary>
    /// Five bubbles in a million parts of water at 2 bar give 4 % of the give of a pipe of 1250 m/s (A. B. Wood's mixture rule), and less
    /// of a softer one, whose give is larger as 1/a². How soon they follow, about a millisecond, is an estimate.
    /// </summary>
    private static double Bubbles(double waveSpeedMPerS) => 0.04 * Math.Pow(waveSpeedMPerS / 1250, 2);

    private static IReadOnlyList<CreepElement> Creep(WallCreep wall, PipeReach reach, WaterProperties water)
    {
        double part = WallCreep.WallPart(reach.WaveSpeedMPerS, water.SoundSpeedMPerS);
        return [.. wall.At(water.TemperatureC).Elements.Select(e => e with { Share = e.Share * part })];
    }
}
