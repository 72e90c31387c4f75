using Parquet;
using Parquet.Schema;

namespace Clackbeat.Season.Export;

/// <summary>A column of a Parquet file, its unit in the column's metadata.</summary>
internal abstract class ParquetColumn(DataField field)
{
    /// <summary>A column of numbers that may lack some.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="unit">Its unit.</param>
    /// <param name="values">A value a row.</param>
    public static ParquetColumn Numbers(string name, string unit, IEnumerable<double?> values) =>
        new Sparse<double>(new DataField(name, typeof(double), isNullable: true), unit, [.. values]);

    /// <summary>A column of counts.</summary>
    public static ParquetColumn Counts(string name, IEnumerable<int> values) =>
        new Full<int>(new DataField(name, typeof(int), isNullable: false), "1", [.. values]);

    /// <summary>A column of instants, to the microsecond.</summary>
    public static ParquetColumn Instants(string name, IEnumerable<DateTimeOffset> values) => new Full<DateTime>(
        new DateTimeDataField(name, DateTimeFormat.Timestamp, isAdjustedToUTC: true, unit: DateTimeTimeUnit.Micros, isNullable: false),
        "UTC", [.. values.Select(v => v.UtcDateTime)]);

    /// <summary>A column of words.</summary>
    public static ParquetColumn Words(string name, IEnumerable<string> values) => new Text(new DataField(name, typeof(string), isNullable: false), [.. values]);

    /// <summary>Writes a file of one row group.</summary>
    /// <param name="stream">Where to; left open.</param>
    /// <param name="columns">Its columns, equally long.</param>
    public static void Write(Stream stream, IReadOnlyList<ParquetColumn> columns) => WriteAsync(stream, columns).GetAwaiter().GetResult();

    private static async Task WriteAsync(Stream stream, IReadOnlyList<ParquetColumn> columns)
    {
        await using ParquetWriter writer = await ParquetWriter.CreateAsync(new ParquetSchema(columns.Select(c => c.Field)), stream).ConfigureAwait(false);
        using ParquetRowGroupWriter group = writer.CreateRowGroup();
        foreach (ParquetColumn column in columns)
        {
            await column.WriteAsync(group).ConfigureAwait(false);
        }

        group.CompleteValidate();
    }

    private DataField Field { get; } = field;

    private protected abstract Task WriteAsync(ParquetRowGroupWriter group);

    private sealed class Sparse<T>(DataField field, string unit, T?[] values) : ParquetColumn(field)
        where T : struct
    {
        private protected override Task WriteAsync(ParquetRowGroupWriter group) =>
            group.WriteAsync<T>(Field, (ReadOnlyMemory<T?>)values, null, new Dictionary<string, string> { ["unit"] = unit });
    }

    private sealed class Full<T>(DataField field, string unit, T[] values) : ParquetColumn(field)
        where T : struct
    {
        private protected override Task WriteAsync(ParquetRowGroupWriter group) =>
            group.WriteAsync<T>(Field, (ReadOnlyMemory<T>)values, null, new Dictionary<string, string> { ["unit"] = unit });
    }

    private sealed class Text(DataField field, string[] values) : ParquetColumn(field)
    {
        private protected override Task WriteAsync(ParquetRowGroupWriter group) => group.WriteAsync(Field, values);
    }
}
