namespace Clackbeat.Sensing.Conversion;

/// <summary>
/// An analogue-to-digital converter as a straight line from volts to counts, with the part of its input range that is
/// fit for use. The defaults are those of the ESP32's first converter at the attenuation its C# runtime sets:
/// 150 to 2450 mV usable (maker's programming guide, "ADC Attenuation"), counting from 142 mV at 0.806 mV a count
/// (the maker's characteristic for the median reference of 1.1 V, from memory; chips differ by ±9 %, which is why a
/// chain is calibrated from end to end).
/// </summary>
public sealed record Converter
{
    /// <summary>Voltage from which it counts [V].</summary>
    public double ZeroV { get; init; } = 0.142;

    /// <summary>Voltage at the largest count [V].</summary>
    public double FullScaleV { get; init; } = 3.441;

    /// <summary>Largest count.</summary>
    public int MaxCounts { get; init; } = 4095;

    /// <summary>Lowest voltage that is read truly [V].</summary>
    public double UsableLowV { get; init; } = 0.150;

    /// <summary>Highest voltage that is read truly [V].</summary>
    public double UsableHighV { get; init; } = 2.450;

    /// <summary>Volts a count [V].</summary>
    public double StepV => (FullScaleV - ZeroV) / MaxCounts;

    /// <summary>Voltage that a count stands for [V].</summary>
    public double VoltsAt(double counts) => ZeroV + (counts * StepV);

    /// <summary>Counts of an unrounded, unbounded converter.</summary>
    public double CountsAt(double volts) => (volts - ZeroV) / StepV;
}
