namespace Clackbeat.Twin.Inside;

/// <summary>One instant of a beat. Heads are over the datum, the waste valve's outlet.</summary>
/// <param name="HeadM">Heads along the drive pipe, from the intake to the body [m].</param>
/// <param name="VelocityMPerS">Velocities along it, towards the body [m/s].</param>
/// <param name="WasteOpening">Lift of the waste valve, 0 shut to 1 as open as it comes to stand.</param>
/// <param name="DeliveryOpening">Lift of the delivery valve, 0 shut to 1 at its stop.</param>
/// <param name="WasteM3PerS">Through the waste valve [m³/s].</param>
/// <param name="DeliveryM3PerS">Through the delivery valve [m³/s].</param>
/// <param name="VesselM3">Water in the vessel over that at the beat's start [m³], while the main draws the beat's mean.</param>
public sealed record InsideFrame(
    IReadOnlyList<double> HeadM, IReadOnlyList<double> VelocityMPerS, double WasteOpening, double DeliveryOpening,
    double WasteM3PerS, double DeliveryM3PerS, double VesselM3);

/// <summary>One beat of a twin from the inside, at even steps from one closure of the waste valve to the next.</summary>
public sealed record InsideBeat
{
    /// <summary>Time between two frames [s].</summary>
    public required double StepS { get; init; }

    /// <summary>Length of the drive pipe [m].</summary>
    public required double LengthM { get; init; }

    /// <summary>Supply level [m].</summary>
    public required double SupplyHeadM { get; init; }

    /// <summary>Head in the vessel [m].</summary>
    public required double VesselHeadM { get; init; }

    /// <summary>Mean flow in the main [m³/s].</summary>
    public required double MainM3PerS { get; init; }

    /// <summary>Pipe period, for naming what is seen [s].</summary>
    public required double PipePeriodS { get; init; }

    /// <summary>The frames; the first is the closure.</summary>
    public required IReadOnlyList<InsideFrame> Frames { get; init; }

    /// <summary>Head in the body that the record shows at each frame [m].</summary>
    public required IReadOnlyList<double> MeasuredM { get; init; }
}
