namespace Clackbeat.VirtualLogger.Converter;

/// <summary>
/// A ratiometric pressure sensor (10 to 90 % of its supply over its range) behind dividers on a 12-bit converter, in
/// volts and counts. The dividers keep the signal inside the 150–2450 mV in which the microcontroller's converter
/// is usable.
/// </summary>
public sealed record SensorModel
{
    /// <summary>Lowest pressure of the sensor's range [Pa gauge].</summary>
    public double RangeLowPa { get; init; }

    /// <summary>Highest pressure of the sensor's range [Pa gauge].</summary>
    public double RangeHighPa { get; init; } = 1e6;

    /// <summary>The sensor's supply [V].</summary>
    public double SupplyV { get; init; } = 5.0;

    /// <summary>Share of the sensor's output that reaches the converter.</summary>
    public double SignalDivider { get; init; } = 0.5;

    /// <summary>Share of the supply that reaches the converter.</summary>
    public double SupplyDivider { get; init; } = 0.4;

    /// <summary>Volts at the converter's largest count.</summary>
    public double FullScaleV { get; init; } = 2.6;

    /// <summary>Largest count.</summary>
    public int MaxCounts { get; init; } = 4095;

    /// <summary>Standard deviation of the converter's noise [counts].</summary>
    public double NoiseCounts { get; init; } = 0.5;

    /// <summary>Counts of an ideal, unrounded converter at a pressure [Pa gauge].</summary>
    public double CountsAt(double pressurePa)
    {
        double share = 0.1 + (0.8 * (pressurePa - RangeLowPa) / (RangeHighPa - RangeLowPa));
        return SupplyV * share * SignalDivider / FullScaleV * MaxCounts;
    }

    /// <summary>Counts of an ideal, unrounded converter on the supply's channel.</summary>
    public double SupplyCounts => SupplyV * SupplyDivider / FullScaleV * MaxCounts;

    /// <summary>
    /// Pressure from counts [Pa gauge], corrected for the supply where that was measured: the sensor's output follows
    /// its supply, and so does the share of both.
    /// </summary>
    /// <param name="counts">Counts of the signal.</param>
    /// <param name="supplyCounts">Counts of the supply; null takes the nominal supply.</param>
    public double PressurePaAt(double counts, double? supplyCounts)
    {
        double supply = supplyCounts ?? SupplyCounts;
        double share = counts / supply * SupplyDivider / SignalDivider;
        return RangeLowPa + ((share - 0.1) / 0.8 * (RangeHighPa - RangeLowPa));
    }
}
