using System.Globalization;
using Clackbeat.Records.Samples;

namespace Clackbeat.Records.Export;

/// <summary>
/// A CSV file with the columns that every command reads. Numbers are written so that they read back as the very same
/// double. A gap shows as a jump in time and in its own column.
/// </summary>
public sealed class CsvExport : IExportFile
{
    private readonly StreamWriter _text;
    private readonly SampleColumns _columns;

    /// <summary>Begins a file.</summary>
    /// <param name="stream">Where to; left open.</param>
    /// <param name="columns">Its columns.</param>
    public CsvExport(Stream stream, SampleColumns columns)
    {
        _columns = columns;
        _text = new StreamWriter(stream, bufferSize: 1 << 14, leaveOpen: true);
        IEnumerable<string> names = new[]
        {
            ExportColumns.Time,
            ExportColumns.Pressure,
            columns.Utc ? ExportColumns.Utc : "",
            columns.Counts ? ExportColumns.Counts : "",
            columns.Supply ? ExportColumns.Supply : "",
            columns.Delivery ? ExportColumns.Delivery : "",
            ExportColumns.Gap,
        }.Where(name => name.Length > 0);
        _text.Write(string.Join(',', names));
        _text.Write('\n');
    }

    /// <inheritdoc/>
    public void Add(in Sample row, double? gapS)
    {
        IFormatProvider plain = CultureInfo.InvariantCulture;
        _text.Write(string.Create(plain, $"{row.TimeS:R},{row.PressurePa / 1000:R}"));
        if (_columns.Utc)
        {
            _text.Write(row.UtcMicroseconds is long utc
                ? string.Create(plain, $",{DateTime.UnixEpoch.AddMicroseconds(utc):yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'}")
                : ",");
        }

        Cell(_columns.Counts, row.Counts);
        Cell(_columns.Supply, row.SupplyCounts);
        Cell(_columns.Delivery, row.DeliveryCounts);
        _text.Write(gapS is double gap ? string.Create(plain, $",{gap:R}\n") : ",\n");
    }

    /// <inheritdoc/>
    public void Finish() => _text.Dispose();

    /// <inheritdoc/>
    public void Dispose()
    {
        // Without Finish the file is not whole and its owner throws it away.
    }

    private void Cell(bool there, int? value)
    {
        if (there)
        {
            _text.Write(',');
            _text.Write(value?.ToString(CultureInfo.InvariantCulture));
        }
    }
}
