using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>A rating for cold water and where it comes from.</summary>
/// <param name="RatedPa">Rating [Pa gauge].</param>
/// <param name="Source">Where it comes from, in words.</param>
/// <param name="ThreadsCounted">The thread is already taken off the wall in this figure.</param>
internal sealed record RatedPressure(double RatedPa, string Source, bool ThreadsCounted)
{
    /// <summary>
    /// Every rating that can be found: what is printed on the pipe alone where it is printed, otherwise the tables' and what
    /// the wall gives, the lowest first. Empty when nothing can be found.
    /// </summary>
    internal static IReadOnlyList<RatedPressure> Candidates(PipeLoad load)
    {
        if (load.PrintedRatingPa is { } printed)
        {
            return [new RatedPressure(printed, "printed on the pipe, as the site file says", IsMetal(load.Material))];
        }

        var rows = PipeCatalogue.Find(load.Material, load.BoreM, load.OutsideM, load.KnownWallM, load.PipeClass);
        var tabled = rows.Where(r => r.RatedPa is not null)
            .Select(r => new RatedPressure(r.RatedPa!.Value, $"{r.Name} ({r.Source})", false));
        var metal = FromMetalWall(load, rows);
        var found = tabled.Concat(metal).OrderBy(r => r.RatedPa).ToList();
        return found.Count > 0 ? found : [.. FromPlasticWall(load)];
    }

    internal static bool IsMetal(PipeMaterial material) => MetalGrade.All.Any(g => g.Material == material);

    private static IEnumerable<RatedPressure> FromMetalWall(PipeLoad load, IReadOnlyList<CataloguePipe> rows)
    {
        // A class without a measured wall still has its nominal one; the thinnest that fits is the safe reading.
        var row = rows.Where(r => r.WallM is not null).MinBy(r => r.WallM);
        var wall = load.KnownWallM ?? row?.WallM;
        var outside = load.OutsideM ?? row?.OutsideDiameterM;
        if (wall is not { } w || outside is not { } od || od > 0.4)
        {
            return [];
        }

        var threaded = MayBeThreaded(load);
        return MetalGrade.All.Where(g => g.Material == load.Material).Select(g => new RatedPressure(
            MetalWall.RatedPa(g, w, od, threaded, load.CorrosionAllowanceM),
            $"computed for {g.Grade}, {(threaded ? "thread, " : "")}mill tolerance and corrosion taken off the wall ({g.Source})",
            true));
    }

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
            $"computed from the wall, 2 σ/(DR − 1) with {design.Source}; no class of the tables fits these dimensions",
            false);
    }

    private static (double StressPa, string Source)? PlasticStress(PipeMaterial material) => material switch
    {
        PipeMaterial.PvcU => (10e6, "the lower of the design stresses in use, 10 MPa (EN ISO 1452-2)"),
        PipeMaterial.Pe100 => (8e6, "8 MPa (EN 12201-2)"),
        PipeMaterial.Pe80 => (6.3e6, "6.3 MPa (EN 12201-2)"),
        PipeMaterial.Pe4710 => (6.895e6, "1000 psi (ASTM F714)"),
        _ => null,
    };
}
