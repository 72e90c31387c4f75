using Clackbeat.Signal.Figures;
namespace Clackbeat.Signal.Flow;

/// <summary>What the record tells of the drive pipe.</summary>
public sealed record DrivePipeSummary
{
    /// <summary>Measured wave speed [m/s].</summary>
    public Figure? WaveSpeedMPerS { get; init; }

    /// <summary>Pipe period 2L/a [s].</summary>
    public double? PipePeriodS { get; init; }

    /// <summary>What the sensor reads too high [Pa].</summary>
    public double? SensorBiasPa { get; init; }
}
