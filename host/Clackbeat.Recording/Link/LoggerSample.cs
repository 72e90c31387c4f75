namespace Clackbeat.Recording.Link;

/// <summary>One sample as the logger took it.</summary>
/// <param name="DeviceTimeMicroseconds">True time of the sample on the device's own clock [µs since its start].</param>
/// <param name="Counts">Converter counts of the pressure at the body.</param>
/// <param name="SupplyCounts">Latest reading of the sensor's supply [counts]; null before the first.</param>
/// <param name="DeliveryCounts">Latest reading of the delivery pressure [counts]; null before the first.</param>
public readonly record struct LoggerSample(
    long DeviceTimeMicroseconds, int Counts, int? SupplyCounts, int? DeliveryCounts);
