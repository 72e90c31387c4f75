using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Flow;

/// <summary>The column as a site tells it, the sensor's bias unknown.</summary>
internal static class SiteColumn
{
    private const double UsualEntranceLoss = 0.8;
    private const double UsualRoughnessM = 5e-5;

    // Friction is taken at one metre a second in the section at the ram, in the middle of what rams reach.
    private const double UsualVelocityMPerS = 1;

    private const double Gravity2 = 2 * Constants.GravityMPerS2;

    /// <summary>The column of a site.</summary>
    public static ColumnModel Of(RamSite site, SiteHydraulics hydraulics)
    {
        DrivePipe pipe = site.DrivePipe;
        double[] frictions = [.. pipe.Sections.Select(s => FrictionOf(s, pipe, hydraulics.Water))];

        // Entrance loss and velocity head are those of the first section, where the water comes in.
        double first = VelocityRatio(pipe.Sections[0], pipe);
        double entrance = (1 + (pipe.MinorLossCoefficient ?? UsualEntranceLoss)) * first * first;
        return new ColumnModel(
            pipe.LengthM, hydraulics.WaveSpeedMPerS, site.Supply.HeadM, 0, entrance / Gravity2, frictions.Sum() / Gravity2)
        {
            SnifterVelocityMPerS = site.AirVessel.SnifterBoreM is { } bore
                ? Orifice.WaterM3PerS(bore * bore, 1) / (pipe.BoreM * pipe.BoreM)
                : 0,
            Shape = pipe.IsMixed ? Shape(hydraulics, pipe, frictions) : null,
        };
    }

    private static PipeShape Shape(SiteHydraulics hydraulics, DrivePipe pipe, double[] frictions) => new(
        hydraulics.Sections.Select((s, i) => new PipePiece(
            s.Reach.LengthM, s.Reach.WaveSpeedMPerS, VelocityRatio(s.Section, pipe), frictions[i] / frictions.Sum())));

    private static double VelocityRatio(PipeSection section, DrivePipe pipe) => pipe.BoreM * pipe.BoreM / (section.BoreM * section.BoreM);

    /// <summary>Friction of a section over the velocity head at the ram.</summary>
    private static double FrictionOf(PipeSection section, DrivePipe pipe, WaterProperties water)
    {
        double ratio = VelocityRatio(section, pipe);
        double roughnessM = section.RoughnessM ?? MaterialProperties.TryGet(section.Material)?.RoughnessM ?? UsualRoughnessM;
        double reynolds = Friction.Reynolds(UsualVelocityMPerS * ratio, section.BoreM, water.KinematicViscosityM2PerS);
        return Friction.DarcyFactor(reynolds, roughnessM / section.BoreM) * section.LengthM / section.BoreM * ratio * ratio;
    }
}
