using System.Globalization;
using Clackbeat.Site;
using nietras.SeparatedValues;

namespace Clackbeat.Signal.Traces;

/// <summary>
/// A pressure trace in a CSV or TSV file, read as a stream. Separator (tab, semicolon, comma), decimal mark, byte-order
/// mark and remarks before the header row are found by looking; rows without two finite numbers are left out and
/// counted. Times and pressures come out in the file's order, in SI.
/// </summary>
public sealed class TraceFile : IDisposable
{
    // Beyond it a double no longer tells milliseconds apart; it is thirty times the seconds since the year 0 [s].
    private const double LatestS = 2e12;

    private readonly string _path;
    private readonly StreamReader _text;
    private readonly SepReader _rows;
    private readonly TableLayout _layout;
    private readonly double _timeScale;
    private readonly double _pressureScale;
    private bool _inTable;

    private TraceFile(string path, StreamReader text, TableLayout layout, TraceColumns columns)
    {
        (_path, _text, _layout) = (path, text, layout);
        _timeScale = columns.ResolveTime().Scale;
        _pressureScale = columns.ResolvePressure().Scale;
        _rows = Sep.New(layout.Separator)
            .Reader(o => o with { HasHeader = false, DisableColCountCheck = true, DisableQuotesParsing = true })
            .From(text);
    }

    /// <summary>Rows that held no usable pair of numbers, after the first that did.</summary>
    public long SkippedRows { get; private set; }

    /// <summary>Share of the file that has been read, 0 to 1.</summary>
    public double Progress => (double)_text.BaseStream.Position / Math.Max(1, _text.BaseStream.Length);

    /// <summary>Opens a trace.</summary>
    /// <param name="path">The file.</param>
    /// <param name="columns">Which columns to read.</param>
    /// <exception cref="InputException">There is no such file, it is empty or no text, or lacks the columns.</exception>
    public static TraceFile Open(string path, TraceColumns columns)
    {
        if (!File.Exists(path))
        {
            throw new InputException(Directory.Exists(path)
                ? $"{path} is a folder; give the trace file inside it."
                : $"{path} doesn't exist. Check the name and the folder.");
        }

        return Open(() => new FileStream(path, new FileStreamOptions { BufferSize = 1 << 16, Options = FileOptions.SequentialScan }), path, columns);
    }

    /// <summary>Opens a trace that can be opened more than once, wherever it lies.</summary>
    /// <param name="open">Opens it.</param>
    /// <param name="path">Its name for messages.</param>
    /// <param name="columns">Which columns to read.</param>
    internal static TraceFile Open(Func<Stream> open, string path, TraceColumns columns)
    {
        RefuseBinary(open, path);
        string firstRows = FirstRows(open, path, columns);
        var text = new StreamReader(open());
        TableLayout layout = TableLayout.Read(text, columns, path).WithDecimalMarkOf(firstRows);
        return new TraceFile(path, text, layout, columns);
    }

    /// <summary>Reads the next samples.</summary>
    /// <param name="timesS">Receives times [s].</param>
    /// <param name="pressuresPa">Receives gauge pressures [Pa]; same length.</param>
    /// <returns>How many were read; 0 at the end.</returns>
    public int Read(Span<double> timesS, Span<double> pressuresPa)
    {
        int count = 0;
        while (count < timesS.Length && NextRow())
        {
            SepReader.Row row = _rows.Current;
            if (TryCell(row, _layout.TimeColumn, _timeScale, out double time) && Math.Abs(time) <= LatestS
                && TryCell(row, _layout.PressureColumn, _pressureScale, out double pressure))
            {
                timesS[count] = time;
                pressuresPa[count++] = pressure;
                _inTable = true;
            }
            else if (_inTable && !(row.ColCount <= 1 && row.Span.Trim().IsEmpty))
            {
                SkippedRows++;
            }
        }

        return count;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _rows.Dispose();
        _text.Dispose();
    }

    private bool NextRow()
    {
        try
        {
            return _rows.MoveNext();
        }
        catch (NotSupportedException tooLong)
        {
            throw TableLayout.LineTooLong(_path, tooLong);
        }
    }

    private bool TryCell(SepReader.Row row, int column, double scale, out double value)
    {
        value = 0;
        bool isNumber = column < row.ColCount
            && double.TryParse(row[column].Span.Trim(" \""), NumberStyles.Float, _layout.Numbers, out value);
        value *= scale;
        return isNumber && double.IsFinite(value);
    }

    private static void RefuseBinary(Func<Stream> open, string path)
    {
        using Stream stream = open();
        Span<byte> head = stackalloc byte[4096];
        head = head[..stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false)];
        bool utf16 = head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || head.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]);
        if (!utf16 && head.Contains((byte)0))
        {
            throw new InputException(
                $"{path} is not a text table (it holds binary data). Export the trace as CSV or TSV with a time and a pressure column.");
        }
    }

    private static string FirstRows(Func<Stream> open, string path, TraceColumns columns)
    {
        using var text = new StreamReader(open());
        TableLayout.Read(text, columns, path);
        return string.Join('\n', Enumerable.Range(0, 50).Select(_ => TableLayout.ReadLine(text, path)));
    }
}
