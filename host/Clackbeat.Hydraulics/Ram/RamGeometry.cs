using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Ram;

/// <summary>Lengths and heads of a ram. Heads are metres of water above the waste valve's outlet.</summary>
public sealed record RamGeometry
{
    private readonly SeriesPipe? _pipe;

    /// <summary>Length of the drive pipe L [m].</summary>
    public required double LengthM { get; init; }

    /// <summary>Bore of the drive pipe D at the ram [m].</summary>
    public required double BoreM { get; init; }

    /// <summary>Supply head H [m].</summary>
    public required double SupplyHeadM { get; init; }

    /// <summary>Delivery head h, above H [m].</summary>
    public required double DeliveryHeadM { get; init; }

    /// <summary>Wave speed a in the drive pipe [m/s]; of several sections L/Σ(L/a).</summary>
    public required double WaveSpeedMPerS { get; init; }

    /// <summary>Area of the bore at the ram [m²]; velocities are counted there.</summary>
    public double AreaM2 => Math.PI * BoreM * BoreM / 4;

    /// <summary>The pipe's sections; one of the dimensions above where none were given.</summary>
    public SeriesPipe Pipe => _pipe ?? new SeriesPipe([new PipeReach(LengthM, BoreM, WaveSpeedMPerS)]);

    /// <summary>Length of a pipe of the bore at the ram that is as inert, A Σ(L/A) [m].</summary>
    public double InertiaLengthM => _pipe?.InertiaLengthM ?? LengthM;

    /// <summary>Pipe period, Σ 2L/a [s].</summary>
    public double PipePeriodS => _pipe?.PipePeriodS ?? (2 * LengthM / WaveSpeedMPerS);

    /// <summary>Wave speed of the section at the ram, which makes the knock [m/s].</summary>
    public double KnockWaveSpeedMPerS => _pipe?.AtRam.WaveSpeedMPerS ?? WaveSpeedMPerS;

    /// <summary>The geometry of a ram on a pipe of sections.</summary>
    /// <param name="pipe">From the intake to the ram.</param>
    /// <param name="supplyHeadM">H [m].</param>
    /// <param name="deliveryHeadM">h [m].</param>
    public static RamGeometry Of(SeriesPipe pipe, double supplyHeadM, double deliveryHeadM) => new(pipe)
    {
        LengthM = pipe.LengthM,
        BoreM = pipe.AtRam.BoreM,
        SupplyHeadM = supplyHeadM,
        DeliveryHeadM = deliveryHeadM,
        WaveSpeedMPerS = pipe.MeanWaveSpeedMPerS,
    };

    /// <summary>A ram on one pipe of constant bore.</summary>
    public RamGeometry()
    {
    }

    private RamGeometry(SeriesPipe pipe) => _pipe = pipe;
}
