namespace Clackbeat.Hydraulics.Pipes;

/// <summary>A length of pipe of one bore and one wave speed.</summary>
/// <param name="LengthM">Length [m].</param>
/// <param name="BoreM">Inside diameter [m].</param>
/// <param name="WaveSpeedMPerS">Wave speed [m/s].</param>
public readonly record struct PipeReach(double LengthM, double BoreM, double WaveSpeedMPerS)
{
    /// <summary>Absolute roughness [m]; 0 is smooth.</summary>
    public double RoughnessM { get; init; }

    /// <summary>Cross-section [m²].</summary>
    public double AreaM2 => Math.PI / 4 * BoreM * BoreM;

    /// <summary>Impedance a/(g A): head over flow in a wave that runs one way [s/m²].</summary>
    public double ImpedanceSPerM2 => WaveSpeedMPerS / (Water.Constants.GravityMPerS2 * AreaM2);

    /// <summary>Time a wave takes along it, L/a [s].</summary>
    public double WaveTimeS => LengthM / WaveSpeedMPerS;
}
