namespace Clackbeat.VirtualRam.Parameters;

/// <summary>
/// Pressure sensor, conditioning and converter. The sensor answers as a second-order system; the converter reads
/// <see cref="CountsAtLow"/> at the low end of the range and <see cref="CountsAtHigh"/> at its high end, and has room
/// beyond both, as a ratiometric 0.5–4.5 V sensor on a 0–5 V converter has.
/// </summary>
public sealed record SensorParameters
{
    /// <summary>Low end of the range [Pa gauge].</summary>
    public required double RangeLowPa { get; init; }

    /// <summary>High end of the range [Pa gauge].</summary>
    public required double RangeHighPa { get; init; }

    /// <summary>Height of the sensor above the datum [m].</summary>
    public double HeightM { get; init; }

    /// <summary>Natural frequency of sensor and tap line [Hz].</summary>
    public double NaturalFrequencyHz { get; init; } = 2000;

    /// <summary>Damping ratio, above 0 and below 1.</summary>
    public double DampingRatio { get; init; } = 0.7;

    /// <summary>What the sensor reads for one true pascal.</summary>
    public double Gain { get; init; } = 1;

    /// <summary>What the sensor reads too high [Pa].</summary>
    public double OffsetPa { get; init; }

    /// <summary>Random noise on each sample, one standard deviation [Pa].</summary>
    public double NoisePa { get; init; } = 250;

    /// <summary>Counts at the low end of the range.</summary>
    public int CountsAtLow { get; init; } = 410;

    /// <summary>Counts at the high end of the range.</summary>
    public int CountsAtHigh { get; init; } = 3686;

    /// <summary>Highest code of the converter (4095 for 12 bits).</summary>
    public int HighestCount { get; init; } = 4095;

    /// <summary>Samples a second [Hz].</summary>
    public double RateHz { get; init; } = 1000;

    /// <summary>Random departure of a sample's instant from its even place, one standard deviation [s]; its time stamp tells the true instant.</summary>
    public double JitterS { get; init; }
}
