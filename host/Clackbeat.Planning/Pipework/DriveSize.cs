using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;

namespace Clackbeat.Planning.Pipework;

/// <summary>Drive pipes that can be bought, and how much water a ram on each takes.</summary>
public sealed record DriveSize
{
    /// <summary>
    /// Least mean velocity in the drive pipe of a ram that still beats well [m/s]. Mean flow over bore in published size tables, 1-1/4 to 4 inch, is 0.2
    /// to 0.6 m/s (H. N. Ogden, Rural Hygiene 1911, table XI).
    /// </summary>
    public const double LeastMPerS = 0.2;

    /// <summary>The most: 2 inch rams of a university take 40 to 120 L/min, 0.3 to 0.9 m/s (DTU Working Paper 33, Warwick 1992).</summary>
    public const double MostMPerS = 0.8;

    /// <summary>In the middle of both sources [m/s].</summary>
    public const double UsualMPerS = 0.45;

    /// <summary>The row of the pipe tables.</summary>
    public required CataloguePipe Pipe { get; init; }

    /// <summary>Bore [m].</summary>
    public double BoreM => PipeSize.BoreM(Pipe);

    /// <summary>Area of the bore [m²].</summary>
    public double AreaM2 => Math.PI / 4 * BoreM * BoreM;

    /// <summary>Least drive flow [m³/s].</summary>
    public double LeastFlowM3PerS => LeastMPerS * AreaM2;

    /// <summary>Largest drive flow [m³/s].</summary>
    public double MostFlowM3PerS => MostMPerS * AreaM2;

    /// <summary>Sizes of a material, smallest first; rams are not made above 6 inch here.</summary>
    /// <param name="material">Galvanised, plain or stainless steel, or PVC-U.</param>
    public static IReadOnlyList<DriveSize> Of(PipeMaterial material)
    {
        string? pipeClass = material switch
        {
            PipeMaterial.PvcU => "Schedule 80",
            PipeMaterial.StainlessSteel => "Schedule 40S",
            _ => "Schedule 40",
        };
        return [.. PipeCatalogue.OfClass(material, pipeClass)
            .Where(p => p.OutsideDiameterM is > 0.02 and < 0.17 && p.WallM is not null)
            .Select(p => new DriveSize { Pipe = p })
            .OrderBy(s => s.BoreM)];
    }

    /// <summary>Materials that <see cref="Of"/> knows sizes of.</summary>
    public static IReadOnlyList<PipeMaterial> Materials { get; } =
        [PipeMaterial.GalvanisedSteel, PipeMaterial.Steel, PipeMaterial.StainlessSteel, PipeMaterial.PvcU];
}
