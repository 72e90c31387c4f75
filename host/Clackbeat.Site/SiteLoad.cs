using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;

namespace Clackbeat.Site;

/// <summary>What a site file says of the strength of its drive pipe; the load itself comes from a record or a person.</summary>
public static class SiteLoad
{
    /// <summary>The pipe with its fittings, pipe period and peak ceiling, and no measured pressure.</summary>
    /// <param name="site">A site without contradictions.</param>
    public static PipeLoad Of(RamSite site)
    {
        var expected = ExpectedFigures.For(site);
        return new PipeLoad
        {
            Material = site.DrivePipe.Material,
            BoreM = site.DrivePipe.BoreM,
            WallM = site.DrivePipe.WallM,
            OutsideDiameterM = site.DrivePipe.OutsideDiameterM,
            PipeClass = site.DrivePipe.PressureClass,
            PrintedRatingPa = site.DrivePipe.PressureRatingPa,
            Joint = site.DrivePipe.Threaded switch
            {
                true => PipeJoint.Threaded,
                false => PipeJoint.Plain,
                null => PipeJoint.Unknown,
            },
            TemperatureC = site.DrivePipe.HighestTemperatureC ?? site.Supply.WaterTemperatureC,
            PipePeriodS = expected.Ram.PipePeriodS,
            CeilingPa = expected.Ram.PeakCeilingPa.High,
            Fittings = [.. site.Fittings.Select(f => new RatedFitting(f.Name, f.PressureRatingPa))],
        };
    }
}
