using System.Diagnostics.CodeAnalysis;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;

namespace Clackbeat.Site.Model;

/// <summary>
/// The drive pipe: one section, or several in a row from the intake to the ram. A pipe of one section is written by
/// <see cref="Material"/>, <see cref="BoreM"/> and their neighbours; of several they tell the section at the ram, where the
/// knock is made, while <see cref="LengthM"/> is the whole.
/// </summary>
public sealed record DrivePipe
{
    private readonly PipeSection[] _sections;

    /// <summary>A pipe of one section.</summary>
    public DrivePipe() => _sections = [new PipeSection { Material = PipeMaterial.Other, LengthM = 0, BoreM = 0 }];

    /// <summary>A pipe of one section or more.</summary>
    /// <param name="sections">From the intake to the ram; at least one.</param>
    [SetsRequiredMembers]
    public DrivePipe(IEnumerable<PipeSection> sections)
    {
        _sections = [.. sections];
        ArgumentOutOfRangeException.ThrowIfZero(_sections.Length, nameof(sections));
    }

    /// <summary>The sections, from the intake to the ram.</summary>
    public IReadOnlyList<PipeSection> Sections => _sections;

    /// <summary>The section at the ram.</summary>
    public PipeSection AtRam => _sections[^1];

    /// <summary>Whether the pipe changes on its way.</summary>
    public bool IsMixed => _sections.Length > 1;

    /// <summary>Length from intake to body [m].</summary>
    public required double LengthM
    {
        get => _sections.Sum(s => s.LengthM);
        init => _sections = [Only with { LengthM = value }];
    }

    /// <summary>Material at the ram.</summary>
    public required PipeMaterial Material
    {
        get => AtRam.Material;
        init => _sections = [Only with { Material = value }];
    }

    /// <summary>Inside diameter at the ram [m].</summary>
    public required double BoreM
    {
        get => AtRam.BoreM;
        init => _sections = [Only with { BoreM = value }];
    }

    /// <summary>Nominal size at the ram as the pipe's maker prints it, such as "2 in" or "DN 50".</summary>
    public string? NominalSize
    {
        get => AtRam.NominalSize;
        init => _sections = [Only with { NominalSize = value }];
    }

    /// <summary>Wall or pressure class at the ram as printed, such as "Schedule 40", "SDR 11" or "PN 16".</summary>
    public string? PressureClass
    {
        get => AtRam.PressureClass;
        init => _sections = [Only with { PressureClass = value }];
    }

    /// <summary>Wall thickness at the ram [m].</summary>
    public double? WallM
    {
        get => AtRam.WallM;
        init => _sections = [Only with { WallM = value }];
    }

    /// <summary>Outside diameter at the ram [m], where the file gives it.</summary>
    public double? OutsideDiameterM
    {
        get => AtRam.OutsideDiameterM;
        init => _sections = [Only with { OutsideDiameterM = value }];
    }

    /// <summary>Pressure rating printed on the pipe at the ram [Pa gauge].</summary>
    public double? PressureRatingPa
    {
        get => AtRam.PressureRatingPa;
        init => _sections = [Only with { PressureRatingPa = value }];
    }

    /// <summary>Wave speed at the ram as given in the file [m/s].</summary>
    public double? WaveSpeedMPerS
    {
        get => AtRam.WaveSpeedMPerS;
        init => _sections = [Only with { WaveSpeedMPerS = value }];
    }

    /// <summary>Absolute wall roughness at the ram [m].</summary>
    public double? RoughnessM
    {
        get => AtRam.RoughnessM;
        init => _sections = [Only with { RoughnessM = value }];
    }

    /// <summary>The pipe's ends at the ram are threaded, which takes wall away; null when nobody said.</summary>
    public bool? Threaded
    {
        get => AtRam.Threaded;
        init => _sections = [Only with { Threaded = value }];
    }

    /// <summary>Expanded uncertainty (k = 2) of the whole length [m].</summary>
    public double? LengthUncertaintyM { get; init; }

    /// <summary>How the pipe is held lengthwise.</summary>
    public PipeRestraint? Restraint { get; init; }

    /// <summary>Highest temperature the pipe's wall reaches, which lowers the rating of plastics [°C].</summary>
    public double? HighestTemperatureC { get; init; }

    /// <summary>Loss coefficient of entrance, strainer and bends, without the velocity head.</summary>
    public double? MinorLossCoefficient { get; init; }

    private PipeSection Only => _sections.Length == 1
        ? _sections[0]
        : throw new InvalidOperationException("The drive pipe has several sections: make a new pipe of changed sections.");
}
