namespace Clackbeat.Recording.Reading;

/// <summary>A sample of a recording.</summary>
/// <param name="TimeMicroseconds">Time since the recording's first sample [µs].</param>
/// <param name="UtcMicroseconds">Calendar [µs since 1970-01-01 UTC]; null where nothing ties it.</param>
/// <param name="Counts">Converter counts of the pressure at the body.</param>
/// <param name="SupplyCounts">Latest reading of the sensor's supply [counts]; null for none.</param>
/// <param name="DeliveryCounts">Latest reading of the delivery pressure [counts]; null for none.</param>
public readonly record struct RecordedSample(
    long TimeMicroseconds, long? UtcMicroseconds, int Counts, int? SupplyCounts, int? DeliveryCounts)
{
    /// <summary>Time since the recording's first sample [s]: the double that six decimals in a text file are read as.</summary>
    public double TimeS => TimeMicroseconds / 1e6;
}
