using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Site.Model;

/// <summary>A length of drive pipe of one material, bore and wall.</summary>
public sealed record PipeSection
{
    /// <summary>Material.</summary>
    public required PipeMaterial Material { get; init; }

    /// <summary>Length [m].</summary>
    public required double LengthM { get; init; }

    /// <summary>Inside diameter [m].</summary>
    public required double BoreM { get; init; }

    /// <summary>Nominal size as the pipe's maker prints it, such as "2 in" or "DN 50".</summary>
    public string? NominalSize { get; init; }

    /// <summary>Wall or pressure class as printed, such as "Schedule 40", "SDR 11" or "PN 16".</summary>
    public string? PressureClass { get; init; }

    /// <summary>Wall thickness [m].</summary>
    public double? WallM { get; init; }

    /// <summary>Outside diameter [m], where the file gives it.</summary>
    public double? OutsideDiameterM { get; init; }

    /// <summary>Pressure rating printed on the pipe [Pa gauge].</summary>
    public double? PressureRatingPa { get; init; }

    /// <summary>Wave speed as given in the file [m/s].</summary>
    public double? WaveSpeedMPerS { get; init; }

    /// <summary>Absolute wall roughness [m].</summary>
    public double? RoughnessM { get; init; }

    /// <summary>The ends are threaded, which takes wall away; null when nobody said.</summary>
    public bool? Threaded { get; init; }

    /// <summary>Area of the bore [m²].</summary>
    public double AreaM2 => Math.PI / 4 * BoreM * BoreM;
}
