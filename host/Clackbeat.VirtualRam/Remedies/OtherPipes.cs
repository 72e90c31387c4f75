using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site.Model;

namespace Clackbeat.VirtualRam.Remedies;

/// <summary>Other drive pipes worth trying at a site, from the tables of pipes: the next class, steel, polyethylene.</summary>
public static class OtherPipes
{
    /// <summary>The changes, each with the site on that pipe.</summary>
    /// <param name="site">The site as it is.</param>
    public static IEnumerable<(RemedyChange Change, RamSite Site)> For(RamSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        DrivePipe pipe = site.DrivePipe;
        if (Thicker(pipe) is { } row)
        {
            yield return (new RemedyChange(RemedyCode.StrongerClass, row.Name), Laid(site, pipe.Material, row));
        }

        foreach (PipeMaterial material in new[] { PipeMaterial.GalvanisedSteel, PipeMaterial.Pe100 })
        {
            if (material != pipe.Material && Nearest(material, pipe.BoreM) is { } other)
            {
                RemedyCode code = material == PipeMaterial.Pe100 ? RemedyCode.SofterPipe : RemedyCode.StifferPipe;
                yield return (new RemedyChange(code, other.Name), Laid(site, material, other));
            }
        }
    }

    // Only the pipe changes, and its rating comes from the tables.
    private static RamSite Laid(RamSite site, PipeMaterial material, CataloguePipe row) => site with
    {
        DrivePipe = site.DrivePipe with
        {
            Material = material,
            BoreM = row.OutsideDiameterM!.Value - (2 * row.WallM!.Value),
            WallM = row.WallM,
            OutsideDiameterM = row.OutsideDiameterM,
            PressureClass = row.Class,
            PressureRatingPa = null,
            WaveSpeedMPerS = null,
            RoughnessM = null,
            Threaded = material == site.DrivePipe.Material ? site.DrivePipe.Threaded : material == PipeMaterial.GalvanisedSteel,
        },
    };

    private static CataloguePipe? Thicker(DrivePipe pipe)
    {
        double? wall = pipe.WallM ?? ((pipe.OutsideDiameterM - pipe.BoreM) / 2);
        double? outside = pipe.OutsideDiameterM ?? (pipe.BoreM + (2 * wall));
        return PipeCatalogue.All
            .Where(p => p.Material == pipe.Material && p.OutsideDiameterM is { } od && p.WallM is not null
                && Math.Abs(od - (outside ?? 0)) < 0.01 * od && p.WallM > 1.05 * wall)
            .MinBy(p => p.WallM);
    }

    private static CataloguePipe? Nearest(PipeMaterial material, double boreM) => material == PipeMaterial.Pe100
        ? MadeToRatio(material, boreM, 11)
        : PipeCatalogue.All
            .Where(p => p.Material == material && p.OutsideDiameterM is not null && p.WallM is not null)
            .MinBy(p => Math.Abs(p.OutsideDiameterM!.Value - (2 * p.WallM!.Value) - boreM));

    // A class that every size shares: the size is the one whose bore is that of the pipe.
    private static CataloguePipe? MadeToRatio(PipeMaterial material, double boreM, double ratio)
    {
        CataloguePipe? row = PipeCatalogue.All.FirstOrDefault(p => p.Material == material && p.DimensionRatio == ratio && p.OutsideDiameterM is null);
        double outside = boreM / (1 - (2 / ratio));
        return row is null ? null : row with { OutsideDiameterM = outside, WallM = outside / ratio };
    }
}
