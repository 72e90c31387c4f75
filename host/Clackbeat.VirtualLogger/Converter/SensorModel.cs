using Clackbeat.Sensing.Conversion;

namespace Clackbeat.VirtualLogger.Converter;

/// <summary>
/// A pressure sensor behind its divider or shunt on the logger's converter, in counts. Left as it is: a ratiometric
/// sensor of 0 to 1000 kPa on the board of the hardware pages.
/// </summary>
public sealed record SensorModel
{
    /// <summary>Sensor, conditioning and converter.</summary>
    public SignalPath Path { get; init; } = new() { RangeLowPa = 0, RangeHighPa = 1e6 };

    /// <summary>What the sensor's supply really is [V].</summary>
    public double SupplyV { get; init; } = 5.0;

    /// <summary>Standard deviation of the converter's noise [counts].</summary>
    public double NoiseCounts { get; init; } = 0.5;

    /// <summary>Largest count.</summary>
    public int MaxCounts => Path.Converter.MaxCounts;

    /// <summary>Counts of an unrounded, unbounded converter on the supply's channel.</summary>
    public double SupplyCounts => Path.SupplyCountsAt(SupplyV);

    /// <summary>Counts of an unrounded, unbounded converter at a pressure [Pa gauge].</summary>
    public double CountsAt(double pressurePa) => Path.CountsAt(pressurePa, SupplyV);
}
