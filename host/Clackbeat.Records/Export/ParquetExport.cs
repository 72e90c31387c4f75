using Clackbeat.Records.Samples;
using Parquet;
using Parquet.Schema;

namespace Clackbeat.Records.Export;

/// <summary>
/// An Apache Parquet file: the columns of the CSV with their units in each column's metadata, in row groups of bounded
/// size so that memory stays flat.
/// </summary>
public sealed class ParquetExport : IExportFile
{
    private const int GroupRows = 1 << 17;

    private readonly ParquetWriter _writer;
    private readonly List<Column> _columns = [];
    private int _rows;

    /// <summary>Begins a file.</summary>
    /// <param name="stream">Where to; left open.</param>
    /// <param name="columns">Its columns.</param>
    /// <param name="about">What the file says of itself.</param>
    public ParquetExport(Stream stream, SampleColumns columns, IReadOnlyDictionary<string, string> about)
    {
        Add(ExportColumns.Time, "s", (row, _) => row.TimeS);
        Add(ExportColumns.Pressure, "kPa (gauge)", (row, _) => row.PressurePa / 1000);
        if (columns.Utc)
        {
            DateTimeDataField utc = new(
                ExportColumns.Utc, DateTimeFormat.Timestamp, true, DateTimeTimeUnit.Micros, true);
            _columns.Add(new Column<DateTime>(
                utc, "UTC", (row, _) => row.UtcMicroseconds is long us ? DateTime.UnixEpoch.AddMicroseconds(us) : null));
        }

        AddCounts(columns.Counts, ExportColumns.Counts, row => row.Counts);
        AddCounts(columns.Supply, ExportColumns.Supply, row => row.SupplyCounts);
        AddCounts(columns.Delivery, ExportColumns.Delivery, row => row.DeliveryCounts);
        Add(ExportColumns.Gap, "s without samples before this one", (_, gapS) => gapS, nullable: true);
        _writer = Wait(ParquetWriter.CreateAsync(new ParquetSchema(_columns.Select(c => c.Field)), stream));
        _writer.CustomMetadata = about;
    }

    /// <inheritdoc/>
    public void Add(in Sample row, double? gapS)
    {
        foreach (Column column in _columns)
        {
            column.Take(row, gapS);
        }

        if (++_rows == GroupRows)
        {
            WriteGroup();
        }
    }

    /// <inheritdoc/>
    public void Finish()
    {
        WriteGroup();
        _writer.DisposeAsync().AsTask().GetAwaiter().GetResult();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // Without Finish the file has no footer and its owner throws it away.
    }

    private static T Wait<T>(Task<T> task) => task.GetAwaiter().GetResult();

    private void Add(string name, string unit, Func<Sample, double?, double?> value, bool nullable = false) =>
        _columns.Add(new Column<double>(new DataField(name, typeof(double), nullable), unit, value));

    private void AddCounts(bool there, string name, Func<Sample, int?> value)
    {
        if (there)
        {
            _columns.Add(new Column<int>(new DataField(name, typeof(int), true), "counts", (row, _) => value(row)));
        }
    }

    private void WriteGroup()
    {
        if (_rows == 0)
        {
            return;
        }

        using ParquetRowGroupWriter group = _writer.CreateRowGroup();
        _columns.ForEach(column => column.Write(group));
        group.CompleteValidate();
        _rows = 0;
    }

    private abstract class Column(DataField field, string unit)
    {
        public DataField Field { get; } = field;

        protected Dictionary<string, string> About { get; } = new() { ["unit"] = unit };

        public abstract void Take(Sample row, double? gapS);

        public abstract void Write(ParquetRowGroupWriter group);
    }

    private sealed class Column<T>(DataField field, string unit, Func<Sample, double?, T?> value) : Column(field, unit)
        where T : struct
    {
        private readonly List<T?> _values = [];

        public override void Take(Sample row, double? gapS) => _values.Add(value(row, gapS));

        public override void Write(ParquetRowGroupWriter group)
        {
            Task written = Field.IsNullable
                ? group.WriteAsync<T>(Field, (ReadOnlyMemory<T?>)_values.ToArray(), null, About)
                : group.WriteAsync<T>(Field, (ReadOnlyMemory<T>)_values.ConvertAll(v => v!.Value).ToArray(), null, About);
            written.GetAwaiter().GetResult();
            _values.Clear();
        }
    }
}
