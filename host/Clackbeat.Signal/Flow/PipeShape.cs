using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Signal.Flow;

/// <summary>
/// What a drive pipe has besides one length and one wave speed: sections of their own bore, and walls that creep. A pipe without either
/// needs none of this. Velocities are those in the section at the ram; a section with more area carries the same flow more slowly.
/// </summary>
internal sealed class PipeShape
{
    private readonly PipePiece[] _pieces;

    /// <summary>Joins pieces.</summary>
    /// <param name="pieces">From the intake to the ram, at least one.</param>
    public PipeShape(IEnumerable<PipePiece> pieces)
    {
        _pieces = [.. pieces];
        LengthM = _pieces.Sum(p => p.LengthM);
        WaveSpeedMPerS = LengthM / _pieces.Sum(p => p.LengthM / p.WaveSpeedMPerS);
    }

    /// <summary>The pieces, from the intake to the ram.</summary>
    public IReadOnlyList<PipePiece> Pieces => _pieces;

    /// <summary>Whole length [m].</summary>
    public double LengthM { get; }

    /// <summary>Mean wave speed by wave time, ΣL/Σ(L/a) [m/s].</summary>
    public double WaveSpeedMPerS { get; }

    /// <summary>Head that stops one metre a second at the ram, a/g [s], where the mean wave speed is another than the site's.</summary>
    /// <param name="meanWaveSpeedMPerS">Mean wave speed [m/s].</param>
    public double ImpedanceAtRam(double meanWaveSpeedMPerS) =>
        _pieces[^1].WaveSpeedMPerS / WaveSpeedMPerS * meanWaveSpeedMPerS / Constants.GravityMPerS2;
}

/// <summary>A length of pipe of one bore, wall and wave speed.</summary>
/// <param name="LengthM">Length [m].</param>
/// <param name="WaveSpeedMPerS">Wave speed [m/s].</param>
/// <param name="VelocityRatio">Velocity here over that at the ram: the ram's area over this one's.</param>
/// <param name="LossShare">This piece's part of the friction of the whole pipe.</param>
internal sealed record PipePiece(double LengthM, double WaveSpeedMPerS, double VelocityRatio, double LossShare)
{
    /// <summary>Retarded elements of the wall, each share over the prompt give of wall and water.</summary>
    public IReadOnlyList<CreepElement> Creep { get; init; } = [];
}
