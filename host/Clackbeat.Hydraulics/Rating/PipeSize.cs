using System.Globalization;
using System.Text.RegularExpressions;
using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>Finds a pipe in the tables by the size it is sold by, such as "2 in", "1-1/2 in", "DN 50" or "63 mm".</summary>
public static partial class PipeSize
{
    // A bore by tape, against the one its class and size give.
    private const double BoreTolerance = 0.05;

    // ISO 6708: the same sizes under two names.
    private static readonly (double Inches, double Dn)[] TwoNames =
        [(0.5, 15), (0.75, 20), (1, 25), (1.25, 32), (1.5, 40), (2, 50), (2.5, 65), (3, 80), (4, 100), (5, 125), (6, 150)];

    /// <summary>
    /// The one pipe that is sold by this name; null when none or more than one of different measures fits.
    /// </summary>
    /// <param name="material">Material.</param>
    /// <param name="size">Size as printed.</param>
    /// <param name="pipeClass">Class as printed, if known.</param>
    /// <param name="boreM">Bore, which settles what the class leaves open [m]; null when not known.</param>
    public static CataloguePipe? Find(PipeMaterial material, string size, string? pipeClass, double? boreM)
    {
        var rows = (pipeClass is null ? PipeCatalogue.All.Where(p => p.Material == material) : PipeCatalogue.OfClass(material, pipeClass))
            .Select(row => Sized(row, size)).OfType<CataloguePipe>().ToList();
        if (rows.Count > 1 && boreM is { } bore)
        {
            rows = [.. rows.Where(r => Math.Abs(BoreM(r) - bore) <= BoreTolerance * bore)];
        }

        return rows.DistinctBy(r => (r.OutsideDiameterM, r.WallM)).Take(2).ToList() is [var only] ? only : null;
    }

    /// <summary>Bore of a row that has both measures [m].</summary>
    /// <param name="row">The row.</param>
    public static double BoreM(CataloguePipe row) => row.OutsideDiameterM!.Value - 2 * row.WallM!.Value;

    // A row of this very size, or a class made by ratio at this outside diameter.
    private static CataloguePipe? Sized(CataloguePipe row, string size)
    {
        if (row.OutsideDiameterM is not null && row.WallM is not null)
        {
            return Inches(row.Size) is { } sold && Inches(size) is { } wanted && Math.Abs(sold - wanted) < 1e-6 ? row : null;
        }

        return row.DimensionRatio is { } ratio && OutsideM(size) is { } outside && row.Diameters.Contains(outside)
            ? row with { Size = size.Trim(), OutsideDiameterM = outside, WallM = outside / ratio }
            : null;
    }

    /// <summary>Nominal inches; null for what is neither inches nor a DN with a name in inches.</summary>
    private static double? Inches(string size)
    {
        if (NominalDiameter().Match(size) is { Success: true } dn)
        {
            double millimetres = double.Parse(dn.Groups[1].Value, CultureInfo.InvariantCulture);
            return TwoNames.Where(t => t.Dn == millimetres).Select(t => (double?)t.Inches).FirstOrDefault();
        }

        if (InchSize().Match(size) is not { Success: true } inch)
        {
            return null;
        }

        double whole = inch.Groups[1].Success ? double.Parse(inch.Groups[1].Value, CultureInfo.InvariantCulture) : 0;
        return inch.Groups[2].Success
            ? whole + double.Parse(inch.Groups[2].Value, CultureInfo.InvariantCulture) / double.Parse(inch.Groups[3].Value, CultureInfo.InvariantCulture)
            : whole;
    }

    /// <summary>Outside diameter that a metric plastic pipe is sold by [m].</summary>
    private static double? OutsideM(string size) =>
        Millimetres().Match(size) is { Success: true } metric
            ? double.Parse(metric.Groups[1].Value, CultureInfo.InvariantCulture) * 1e-3
            : null;

    [GeneratedRegex(@"^\s*DN\s*(\d+)\s*$", RegexOptions.IgnoreCase)]
    private static partial Regex NominalDiameter();

    [GeneratedRegex(@"^\s*(?:NPS\s*)?(?:(\d+(?:\.\d+)?)(?![\d/]))?(?:[\s-]*(\d+)/([1-9]\d*))?\s*(?:in|inch|inches|""|″)\s*$", RegexOptions.IgnoreCase)]
    private static partial Regex InchSize();

    [GeneratedRegex(@"^\s*(?:DN|d|OD|Ø)?\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*$", RegexOptions.IgnoreCase)]
    private static partial Regex Millimetres();
}
