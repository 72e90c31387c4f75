using Clackbeat.Hydraulics;

namespace Clackbeat.Site.Model;

/// <summary>The logger as it is set up.</summary>
public sealed record LoggerSetup
{
    /// <summary>Samples a second it is set to take [Hz].</summary>
    public double? SamplingRateHz { get; init; }

    /// <summary>Signal divider, resistor towards the sensor [Ω].</summary>
    public double? DividerUpperOhm { get; init; }

    /// <summary>Signal divider, resistor towards ground [Ω].</summary>
    public double? DividerLowerOhm { get; init; }

    /// <summary>Shunt of a current loop [Ω].</summary>
    public double? ShuntOhm { get; init; }

    /// <summary>Supply divider, resistor towards the supply [Ω].</summary>
    public double? SupplyDividerUpperOhm { get; init; }

    /// <summary>Supply divider, resistor towards ground [Ω].</summary>
    public double? SupplyDividerLowerOhm { get; init; }

    /// <summary>Battery divider, resistor towards the battery [Ω].</summary>
    public double? BatteryDividerUpperOhm { get; init; }

    /// <summary>Battery divider, resistor towards ground [Ω].</summary>
    public double? BatteryDividerLowerOhm { get; init; }

    /// <summary>Limit of error of these resistors, as a share.</summary>
    public double? ResistorTolerance { get; init; }

    /// <summary>Series resistor of the filter [Ω].</summary>
    public double? FilterResistorOhm { get; init; }

    /// <summary>Capacitor of the filter [F].</summary>
    public double? FilterCapacitorF { get; init; }

    /// <summary>Voltage from which the converter counts [V].</summary>
    public double? ConverterZeroV { get; init; }

    /// <summary>Voltage at the converter's largest count [V].</summary>
    public double? ConverterFullScaleV { get; init; }

    /// <summary>Voltages between which the converter reads truly [V].</summary>
    public Band? ConverterWindowV { get; init; }

    /// <summary>Resolution of the converter [bit].</summary>
    public int? ConverterBits { get; init; }
}

/// <summary>What a lone logger lives on, and how often it wakes.</summary>
public sealed record BatterySetup
{
    /// <summary>Charge of the battery [C].</summary>
    public double? CapacityC { get; init; }

    /// <summary>Voltage below which the logger records no more [V].</summary>
    public double? CutOffV { get; init; }

    /// <summary>Share of it that may be drawn.</summary>
    public double? UsableShare { get; init; }

    /// <summary>Length of a record [s].</summary>
    public double? BurstLengthS { get; init; }

    /// <summary>From the start of one record to the next [s].</summary>
    public double? BurstIntervalS { get; init; }

    /// <summary>Current while recording, sensor included [A].</summary>
    public double? AwakeA { get; init; }

    /// <summary>Current while asleep [A].</summary>
    public double? AsleepA { get; init; }
}

/// <summary>A fitting that bears the peak together with the pipe.</summary>
/// <param name="Name">What and where it is.</param>
/// <param name="PressureRatingPa">Its rating [Pa gauge]; null when the keeper does not know it.</param>
public sealed record Fitting(string Name, double? PressureRatingPa);

/// <summary>Where a bucket was held.</summary>
public enum BucketOutlet
{
    /// <summary>Under the end of the delivery main.</summary>
    Delivery,

    /// <summary>Under the waste valve.</summary>
    Waste,
}

/// <summary>A bucket filled against a watch while the ram beat.</summary>
public sealed record BucketTest
{
    /// <summary>Where the bucket was held.</summary>
    public required BucketOutlet Outlet { get; init; }

    /// <summary>Water caught [m³].</summary>
    public required double VolumeM3 { get; init; }

    /// <summary>Expanded uncertainty (k = 2) of that volume [m³].</summary>
    public double? VolumeUncertaintyM3 { get; init; }

    /// <summary>Time it took [s].</summary>
    public required double TimeS { get; init; }

    /// <summary>The day of the test.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>It was filled while the record at hand was made, and so speaks of the same flow.</summary>
    public bool OfThisRecord { get; init; }

    /// <summary>Flow [m³/s].</summary>
    public double FlowM3PerS => VolumeM3 / TimeS;
}
