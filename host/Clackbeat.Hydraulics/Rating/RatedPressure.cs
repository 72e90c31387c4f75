using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>A rating for cold water and where it comes from.</summary>
/// <param name="RatedPa">Rating [Pa gauge].</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="ThreadsCounted">The thread is already taken off the wall in this figure.</param>
internal sealed record RatedPressure(double RatedPa, RatingSource Source, bool ThreadsCounted)
{
    /// <summary>
    /// Every rating that can be found: what is printed on the pipe alone where it is printed, otherwise the tables' and what
    /// the wall gives, the lowest first. Empty when nothing can be found.
    /// </summary>
    internal static IReadOnlyList<RatedPressure> Candidates(PipeLoad load)
    {
        if (load.PrintedRatingPa is { } printed)
        {
            return [new RatedPressure(printed, new RatingSource(RatingOrigin.Printed), IsMetal(load.Material))];
        }

        IReadOnlyList<CataloguePipe> rows = PipeCatalogue.Find(load.Material, load.BoreM, load.OutsideM, load.KnownWallM, load.PipeClass);
        IEnumerable<RatedPressure> tabled = rows.Where(r => r.RatedPa is not null)
            .Select(r => new RatedPressure(r.RatedPa!.Value, FromTable(r), false));
        IEnumerable<RatedPressure> metal = FromMetalWall(load, rows);
        var found = tabled.Concat(metal).OrderBy(r => r.RatedPa).ToList();
        return found.Count > 0 ? found : [.. FromPlasticWall(load)];
    }

    internal static bool IsMetal(PipeMaterial material) => MetalGrade.All.Any(g => g.Material == material);

    private static IEnumerable<RatedPressure> FromMetalWall(PipeLoad load, IReadOnlyList<CataloguePipe> rows)
    {
        // A class without a measured wall still has its nominal one; the thinnest that fits is the safe reading.
        CataloguePipe? row = rows.Where(r => r.WallM is not null).MinBy(r => r.WallM);
        double? wall = load.KnownWallM ?? row?.WallM;
        double? outside = load.OutsideM ?? row?.OutsideDiameterM;
        if (wall is not { } w || outside is not { } od || od > 0.4)
        {
            return [];
        }

        bool threaded = MayBeThreaded(load);
        return MetalGrade.All.Where(g => g.Material == load.Material).Select(g => new RatedPressure(
            MetalWall.RatedPa(g, w, od, threaded, load.CorrosionAllowanceM),
            new RatingSource(RatingOrigin.MetalWall)
            {
                Name = g.Grade,
                Citation = g.Source,
                IsUnconfirmed = g.IsUnconfirmed,
                IsThreaded = threaded,
            },
            true));
    }

    private static RatingSource FromTable(CataloguePipe row) =>
        new(RatingOrigin.Table) { Name = row.Name, Citation = row.Source, IsUnconfirmed = row.IsUnconfirmed };

    /// <summary>Steel is usually screwed together: where nobody says otherwise, threads are taken off.</summary>
    internal static bool MayBeThreaded(PipeLoad load) => load.Joint == PipeJoint.Threaded
        || (load.Joint == PipeJoint.Unknown && load.Material
            is PipeMaterial.Steel or PipeMaterial.GalvanisedSteel or PipeMaterial.StainlessSteel);

    private static IEnumerable<RatedPressure> FromPlasticWall(PipeLoad load)
    {
        if (load.OutsideM is not { } outside || load.KnownWallM is not { } wall
            || PlasticStress(load.Material) is not { } design)
        {
            yield break;
        }

        yield return new RatedPressure(
            WallFormulas.PlasticPa(design.StressPa, outside / wall),
            new RatingSource(RatingOrigin.PlasticWall) { Citation = design.Source, DesignStressPa = design.StressPa },
            false);
    }

    private static (double StressPa, string Source)? PlasticStress(PipeMaterial material) => material switch
    {
        PipeMaterial.PvcU => (10e6, "the lower of the design stresses of EN ISO 1452-2"),
        PipeMaterial.Pe100 => (8e6, "EN 12201-2"),
        PipeMaterial.Pe80 => (6.3e6, "EN 12201-2"),
        PipeMaterial.Pe4710 => (6.895e6, "ASTM F714"),
        _ => null,
    };
}
