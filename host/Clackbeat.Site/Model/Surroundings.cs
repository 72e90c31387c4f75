namespace Clackbeat.Site.Model;

/// <summary>The logger as it is set up.</summary>
public sealed record LoggerSetup
{
    /// <summary>Samples a second it is set to take [Hz].</summary>
    public double? SamplingRateHz { get; init; }

    /// <summary>Pressure that the converter's lowest count stands for [Pa gauge].</summary>
    public double? ConverterLowPa { get; init; }

    /// <summary>Pressure that the converter's highest count stands for [Pa gauge].</summary>
    public double? ConverterHighPa { get; init; }

    /// <summary>Resolution of the converter [bit].</summary>
    public int? ConverterBits { get; init; }
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

    /// <summary>Flow [m³/s].</summary>
    public double FlowM3PerS => VolumeM3 / TimeS;
}
