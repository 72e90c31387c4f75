using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;

namespace Clackbeat.VirtualLogger.Converter;

/// <summary>
/// A pressure sensor behind its divider or shunt on the logger's converter, in counts. Left as it is: a ratiometric
/// sensor of 0 to 1000 kPa on the board of the hardware pages.
/// </summary>
public sealed record SensorModel
{
    /// <summary>Sensor, conditioning and converter; with a calibration, as far off their data sheets as that says.</summary>
    public SensorConversion Conversion { get; init; } = SensorConversion.Nominal(new SignalPath { RangeLowPa = 0, RangeHighPa = 1e6 });

    /// <summary>What the sensor's supply really is [V].</summary>
    public double SupplyV { get; init; } = 5.0;

    /// <summary>Standard deviation of the converter's noise [counts].</summary>
    public double NoiseCounts { get; init; } = 0.5;

    /// <summary>Largest count.</summary>
    public int MaxCounts => Conversion.Path.Converter.MaxCounts;

    /// <summary>Counts of an unrounded, unbounded converter on the supply's channel.</summary>
    public double SupplyCounts => Conversion.Path.SupplyCountsAt(SupplyV);

    /// <summary>Counts of an unrounded, unbounded converter at a pressure [Pa gauge].</summary>
    public double CountsAt(double pressurePa) => Conversion.CountsAt(pressurePa, SupplyV);
}
