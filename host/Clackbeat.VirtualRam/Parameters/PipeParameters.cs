using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.VirtualRam.Parameters;

/// <summary>A drive pipe, or one section of it. The whole falls evenly from the intake to the body.</summary>
public sealed record PipeParameters
{
    /// <summary>Length [m].</summary>
    public required double LengthM { get; init; }

    /// <summary>Bore [m].</summary>
    public required double BoreM { get; init; }

    /// <summary>Absolute roughness [m].</summary>
    public required double RoughnessM { get; init; }

    /// <summary>Wave speed over times long against <see cref="RetardationTimeS"/> and short against the creep, without gas [m/s].</summary>
    public required double WaveSpeedMPerS { get; init; }

    /// <summary>
    /// Compliance that follows the pressure within milliseconds, as a share of the prompt one: rubber in joints and the few
    /// bubbles that real water carries. It calms sharp waves in stiff pipes, which wall friction alone hardly does.
    /// </summary>
    public double RetardedCompliance { get; init; }

    /// <summary>Time constant of that delay [s].</summary>
    public double RetardationTimeS { get; init; } = 1e-3;

    /// <summary>Creep of the wall: retarded shares of the whole give (wall and water) that the wave speed stands for.</summary>
    public IReadOnlyList<CreepElement> Creep { get; init; } = [];

    /// <summary>
    /// Free gas spread along the pipe: its volume at the pressure of the air over the pipe's volume. Its give goes with the
    /// inverse square of the pressure, so waves are slow while the valve is open and fast on the plateau.
    /// </summary>
    public double GasShare { get; init; }

    /// <summary>Cross-section [m²].</summary>
    public double AreaM2 => Math.PI / 4 * BoreM * BoreM;
}
