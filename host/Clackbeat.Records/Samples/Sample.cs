namespace Clackbeat.Records.Samples;

/// <summary>One sample, whatever it was read from: the one form in which samples go to every analysis, page, store and export.</summary>
/// <param name="TimeS">Time since the source's own zero [s]; for a recording that is its first sample.</param>
/// <param name="PressurePa">Gauge pressure [Pa].</param>
/// <param name="UtcMicroseconds">Calendar [µs since 1970-01-01 UTC]; null where nothing ties it.</param>
/// <param name="Counts">Converter counts; null for a table, which never had any.</param>
/// <param name="SupplyCounts">Counts of the sensor's supply; null for none.</param>
/// <param name="DeliveryCounts">Counts of the delivery pressure; null for none.</param>
public readonly record struct Sample(
    double TimeS, double PressurePa, long? UtcMicroseconds = null, int? Counts = null, int? SupplyCounts = null, int? DeliveryCounts = null);

/// <summary>Takes a batch of samples, valid during the call.</summary>
public delegate void SampleTaker(ReadOnlySpan<Sample> samples);

/// <summary>What a source can fill beside time and pressure.</summary>
/// <param name="Utc">Calendar.</param>
/// <param name="Counts">Converter counts.</param>
/// <param name="Supply">Counts of the sensor's supply.</param>
/// <param name="Delivery">Counts of the delivery pressure.</param>
public readonly record struct SampleColumns(bool Utc, bool Counts, bool Supply, bool Delivery);
