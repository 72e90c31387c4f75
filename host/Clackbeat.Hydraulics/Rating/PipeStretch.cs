using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>One section of a drive pipe with what decides its strength. The load is that of the whole pipe.</summary>
/// <param name="Name">How messages name it, such as "section 2 of the drive pipe (PE100)".</param>
/// <param name="Material">Material.</param>
/// <param name="BoreM">Inside diameter [m].</param>
public sealed record PipeStretch(string Name, PipeMaterial Material, double BoreM)
{
    /// <summary>Wall thickness [m].</summary>
    public double? WallM { get; init; }

    /// <summary>Outside diameter [m].</summary>
    public double? OutsideDiameterM { get; init; }

    /// <summary>Class written on it.</summary>
    public string? PipeClass { get; init; }

    /// <summary>Rating printed on it [Pa].</summary>
    public double? PrintedRatingPa { get; init; }

    /// <summary>How it is joined.</summary>
    public PipeJoint Joint { get; init; }
}

/// <summary>A section and its own verdict.</summary>
/// <param name="Name">Which section.</param>
/// <param name="AllowablePa">What it may meet again and again [Pa gauge]; null when unknown.</param>
/// <param name="Verdict">Verdict on it, fatigue and suction included.</param>
public sealed record StretchCheck(string Name, double? AllowablePa, PipeVerdict Verdict);
