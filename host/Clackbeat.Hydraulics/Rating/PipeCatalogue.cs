using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>A row of the pipe tables: one size of one class, or a class that every size shares.</summary>
public sealed record CataloguePipe
{
    /// <summary>Material.</summary>
    public required PipeMaterial Material { get; init; }

    /// <summary>Series, such as "SDR-PR" or "EN 10255".</summary>
    public required string Series { get; init; }

    /// <summary>Class, such as "Schedule 40" or "SDR 11".</summary>
    public required string Class { get; init; }

    /// <summary>Nominal size; empty for a class that every size shares.</summary>
    public required string Size { get; init; }

    /// <summary>Outside diameter [m]; null for a class that every size shares.</summary>
    public double? OutsideDiameterM { get; init; }

    /// <summary>Nominal wall of metal, least wall of plastic [m].</summary>
    public double? WallM { get; init; }

    /// <summary>Dimension ratio; null where the class is not made by ratio.</summary>
    public double? DimensionRatio { get; init; }

    /// <summary>Outside diameters the class is made in [m].</summary>
    public Band Diameters { get; init; } = new(0, double.PositiveInfinity);

    /// <summary>Tabled rating for cold water and plain ends [Pa]; null where it has to be computed from the wall.</summary>
    public double? RatedPa { get; init; }

    /// <summary>Standard and source.</summary>
    public required string Source { get; init; }

    /// <summary>The row was never checked against that standard.</summary>
    public bool IsUnconfirmed { get; init; }

    /// <summary>Series, class and size in words.</summary>
    public string Name
    {
        get
        {
            string? name = Class.StartsWith(Series, StringComparison.Ordinal) ? Class : $"{Series} {Class}";
            return Size.Length > 0 ? $"{name}, {Size}" : name;
        }
    }
}

/// <summary>The pipe tables, Data/pipes.csv, sources in each row.</summary>
public static class PipeCatalogue
{
    // Outside diameters of the standard series lie at least 1.2 % apart where they meet (88.9 and 90 mm).
    private const double DiameterTolerance = 0.007;

    // A tape or a caliper on a wall of some millimetres.
    private const double WallTolerance = 0.03;

    // Makers stay a little above the least wall, by up to an eighth.
    private const double WallSurplus = 0.125;

    // Bores are read roughly, and a class has only one bore near it.
    private const double BoreTolerance = 0.04;

    /// <summary>Every row.</summary>
    public static IReadOnlyList<CataloguePipe> All { get; } = DataTable.Read("pipes.csv", PipeRow.Read);

    /// <summary>Rows of a class as people write it ("sch 40", "Schedule 40", "SDR11", "ISO 1452 PN 16").</summary>
    /// <param name="material">Material.</param>
    /// <param name="pipeClass">Class, with or without its series.</param>
    public static IEnumerable<CataloguePipe> OfClass(PipeMaterial material, string pipeClass)
    {
        string? wanted = Plain(pipeClass);
        return All.Where(p => p.Material == material && (Plain(p.Class) == wanted || Plain(p.Series + p.Class) == wanted));
    }

    /// <summary>
    /// What a pipe of these dimensions can be: of each series the strongest class whose wall it has. A tabled size that has both
    /// diameter and wall of the pipe is that pipe, and classes known by ratio alone step back; otherwise more than one series
    /// may fit, and the caller decides and says so.
    /// </summary>
    /// <param name="material">Material.</param>
    /// <param name="boreM">Bore [m].</param>
    /// <param name="outsideDiameterM">Outside diameter [m], if known.</param>
    /// <param name="wallM">Wall [m], if known.</param>
    /// <param name="pipeClass">Class written on the pipe, if known.</param>
    public static IReadOnlyList<CataloguePipe> Find(
        PipeMaterial material, double boreM, double? outsideDiameterM, double? wallM, string? pipeClass)
    {
        IEnumerable<CataloguePipe> rows = pipeClass is null ? All.Where(p => p.Material == material) : OfClass(material, pipeClass);
        var fitting = rows
            .Where(p => Fits(p, boreM, outsideDiameterM, wallM, pipeClass is not null))
            .GroupBy(p => p.Series)
            .Select(series => series.MaxBy(p => p.WallM ?? -p.DimensionRatio ?? 0)!)
            .ToList();
        var exact = fitting.Where(p => p.WallM is { } wall && wallM <= wall * (1 + WallSurplus)).ToList();
        return exact.Count > 0 ? exact : fitting;
    }

    private static bool Fits(CataloguePipe row, double boreM, double? outsideM, double? wallM, bool classKnown)
    {
        if (row.OutsideDiameterM is { } rowOutside && row.WallM is { } rowWall)
        {
            return outsideM is { } outside && wallM is { } wall
                ? Near(outside, rowOutside, DiameterTolerance) && wall >= rowWall * (1 - WallTolerance)
                : classKnown && Near(boreM, rowOutside - 2 * rowWall, BoreTolerance);
        }

        if (!row.Diameters.Contains(outsideM ?? boreM))
        {
            return false;
        }

        return classKnown || (row.DimensionRatio is { } ratio && outsideM is { } od && wallM is { } w
            && od / w <= ratio * (1 + WallTolerance));
    }

    private static bool Near(double value, double of, double tolerance) => Math.Abs(value - of) <= tolerance * of;

    private static string Plain(string text) => new string([.. text.ToUpperInvariant().Where(char.IsLetterOrDigit)])
        .Replace("SCHEDULE", "SCH", StringComparison.Ordinal);
}
