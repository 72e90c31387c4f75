using Clackbeat.Hydraulics;

namespace Clackbeat.Sensing.Conversion;

/// <summary>
/// The way from pressure to counts by the data sheets: sensor, divider or shunt, converter. Everything is a straight
/// line here; how a real chain departs from it is the matter of a calibration.
/// </summary>
public sealed record SignalPath
{
    /// <summary>Lowest pressure of the sensor's range [Pa gauge].</summary>
    public required double RangeLowPa { get; init; }

    /// <summary>Highest pressure of the sensor's range [Pa gauge].</summary>
    public required double RangeHighPa { get; init; }

    /// <summary>The sensor's electric output.</summary>
    public SensorOutput Output { get; init; } = SensorOutput.RatiometricHalfToFourAndAHalfVolts;

    /// <summary>Nominal supply of the sensor [V].</summary>
    public double SupplyV { get; init; } = 5.0;

    /// <summary>Volts at the converter for one unit of output: a divider's share, or a shunt's ohms.</summary>
    public double SignalGain { get; init; } = 0.5;

    /// <summary>Share of the supply that reaches the converter's supply channel.</summary>
    public double SupplyGain { get; init; } = 0.4;

    /// <summary>The converter.</summary>
    public Converter Converter { get; init; } = new();

    /// <summary>Width of the sensor's range [Pa].</summary>
    public double SpanPa => RangeHighPa - RangeLowPa;

    /// <summary>Pressures between which the converter reads truly and the sensor is within its range [Pa gauge].</summary>
    public Band UsablePa => new(
        Math.Max(RangeLowPa, PressurePaAtVolts(Converter.UsableLowV, SupplyV)),
        Math.Min(RangeHighPa, PressurePaAtVolts(Converter.UsableHighV, SupplyV)));

    /// <summary>Pressure step of one count [Pa].</summary>
    public double StepPa => Converter.StepV / SignalGain / (Output.High - Output.Low) * SpanPa;

    /// <summary>Voltage at the converter for a pressure [V].</summary>
    /// <param name="pressurePa">Pressure [Pa gauge].</param>
    /// <param name="supplyV">The supply at that moment [V]; null takes the nominal one.</param>
    public double VoltsAt(double pressurePa, double? supplyV = null)
    {
        double share = (pressurePa - RangeLowPa) / SpanPa;
        return SignalGain * SupplyFactor(supplyV ?? SupplyV) * (Output.Low + (share * (Output.High - Output.Low)));
    }

    /// <summary>Counts of the signal, unrounded and unbounded.</summary>
    /// <param name="pressurePa">Pressure [Pa gauge].</param>
    /// <param name="supplyV">The supply at that moment [V]; null takes the nominal one.</param>
    public double CountsAt(double pressurePa, double? supplyV = null) => Converter.CountsAt(VoltsAt(pressurePa, supplyV));

    /// <summary>Counts of the supply channel, unrounded and unbounded.</summary>
    /// <param name="supplyV">The supply [V]; null takes the nominal one.</param>
    public double SupplyCountsAt(double? supplyV = null) => Converter.CountsAt(SupplyGain * (supplyV ?? SupplyV));

    /// <summary>Pressure that counts stand for by the data sheets [Pa gauge].</summary>
    /// <param name="counts">Counts of the signal.</param>
    /// <param name="supplyCounts">
    /// Counts of the supply at that moment; null takes the nominal supply. Only a ratiometric output heeds it:
    /// P = Pmin + (V/Vs − 0.1)/0.8 · (Pmax − Pmin) for a sensor of 10 to 90 % (TI SBOU024C).
    /// </param>
    public double PressurePaAt(double counts, double? supplyCounts = null) => PressurePaAtVolts(
        Converter.VoltsAt(counts),
        supplyCounts is double supply ? Converter.VoltsAt(supply) / SupplyGain : SupplyV);

    private double PressurePaAtVolts(double volts, double supplyV)
    {
        double output = volts / SignalGain / SupplyFactor(supplyV);
        return RangeLowPa + ((output - Output.Low) / (Output.High - Output.Low) * SpanPa);
    }

    private double SupplyFactor(double supplyV) => Output.FollowsSupply ? supplyV / SupplyV : 1;
}
