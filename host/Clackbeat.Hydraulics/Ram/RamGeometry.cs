namespace Clackbeat.Hydraulics.Ram;

/// <summary>Lengths and heads of a ram. Heads are metres of water above the waste valve's outlet.</summary>
public sealed record RamGeometry
{
    /// <summary>Length of the drive pipe L [m].</summary>
    public required double LengthM { get; init; }

    /// <summary>Bore of the drive pipe D [m].</summary>
    public required double BoreM { get; init; }

    /// <summary>Supply head H [m].</summary>
    public required double SupplyHeadM { get; init; }

    /// <summary>Delivery head h, above H [m].</summary>
    public required double DeliveryHeadM { get; init; }

    /// <summary>Wave speed a in the drive pipe [m/s].</summary>
    public required double WaveSpeedMPerS { get; init; }

    /// <summary>Area of the bore [m²].</summary>
    public double AreaM2 => Math.PI * BoreM * BoreM / 4;
}
