namespace Clackbeat.Recording.Export;

/// <summary>One sample as it leaves for other programs.</summary>
/// <param name="TimeS">Time since the first sample [s].</param>
/// <param name="PressurePa">Gauge pressure [Pa].</param>
/// <param name="UtcMicroseconds">Calendar [µs since 1970-01-01 UTC]; null where nothing ties it.</param>
/// <param name="Counts">Converter counts; null for a trace that never had any.</param>
/// <param name="SupplyCounts">Counts of the sensor's supply; null for none.</param>
/// <param name="DeliveryCounts">Counts of the delivery pressure; null for none.</param>
public readonly record struct ExportRow(
    double TimeS, double PressurePa, long? UtcMicroseconds, int? Counts, int? SupplyCounts, int? DeliveryCounts);

/// <summary>A file of samples that other programs read.</summary>
public interface IExportFile : IDisposable
{
    /// <summary>Writes a row.</summary>
    /// <param name="row">The sample.</param>
    /// <param name="gapS">Time without samples right before it [s]; null for none.</param>
    void Add(ExportRow row, double? gapS);

    /// <summary>Writes what is left.</summary>
    void Finish();
}
