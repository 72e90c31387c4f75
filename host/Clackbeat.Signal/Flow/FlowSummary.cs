using Clackbeat.Signal.Figures;
namespace Clackbeat.Signal.Flow;

/// <summary>Flows.</summary>
public sealed record FlowSummary
{
    /// <summary>Through the delivery valve [m³/s].</summary>
    public Figure? DeliveredM3PerS { get; init; }

    /// <summary>Through the waste valve [m³/s].</summary>
    public Figure? WasteM3PerS { get; init; }

    /// <summary>Drawn from the supply [m³/s].</summary>
    public Figure? DrawnM3PerS { get; init; }

    /// <summary>Velocity in the drive pipe as the waste valve shuts [m/s].</summary>
    public Figure? ClosingVelocityMPerS { get; init; }
}
