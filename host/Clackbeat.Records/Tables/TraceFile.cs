using System.Globalization;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using nietras.SeparatedValues;

namespace Clackbeat.Records.Tables;

/// <summary>
/// A pressure trace in a CSV or TSV file or a spreadsheet, read as a stream. Separator (tab, semicolon, comma), decimal mark,
/// byte-order mark, units in the header and remarks before it are found by looking; rows without two finite numbers are left out
/// and counted. Times and pressures come out in the file's order, in SI.
/// </summary>
public sealed class TraceFile : IDisposable
{
    // Beyond it a double no longer tells milliseconds apart; it is thirty times the seconds since the year 0 [s].
    private const double LatestS = 2e12;
    private const int RowsToLookAt = 50;

    private readonly string _path;
    private readonly StreamReader _text;
    private readonly SepReader _rows;
    private readonly TableHeader _header;
    private readonly TimeCells _times;
    private readonly NumberFormatInfo _numbers;
    private readonly double _pressureScale;
    private readonly List<Fact> _remarks = [];
    private bool _inTable;

    private TraceFile(string path, Func<Stream> open, TraceColumns columns)
    {
        _path = path;
        (TableLayout layout, List<string[]> first, bool quoted, LinesAbove) = Look(open, path, columns);
        _header = layout.Header;
        NumberFormatInfo timeMark = TableLayout.MarkOf(Column(first, _header.Time), layout.Separator);
        _numbers = TableLayout.MarkOf(Column(first, _header.Pressure), layout.Separator);
        TimeForm form = Column(first, _header.Time).Select(c => TimeCells.FormOf(c, timeMark)).FirstOrDefault(f => f is not null) ?? TimeForm.Number;
        (double timeScale, _pressureScale, IsAbsolute) = _header.Settle(columns, form, path, _remarks);
        _times = new TimeCells(form, timeScale, timeMark);
        _text = new StreamReader(open());
        for (int line = 0; line <= layout.HeaderLine; line++)
        {
            TableLayout.ReadLine(_text, path);
        }

        _rows = Sep.New(layout.Separator)
            .Reader(o => o with { HasHeader = false, DisableColCountCheck = true, DisableQuotesParsing = !quoted, Unescape = quoted })
            .From(_text);
    }

    /// <summary>Rows that held no usable pair of numbers, after the first that did.</summary>
    public long SkippedRows { get; private set; }

    /// <summary>True where the header says that pressures count from vacuum, false for gauge pressures, null where it doesn't say.</summary>
    public bool? IsAbsolute { get; }

    /// <summary>What the user should know of how it is read.</summary>
    public IReadOnlyList<Fact> Remarks => _remarks;

    /// <summary>The lines above the header.</summary>
    public IReadOnlyList<string> LinesAbove { get; }

    /// <summary>When the first row was taken, once it was read; null for a table that names no dates.</summary>
    public DateTimeOffset? Start => _times.First;

    /// <summary>Share of the file that has been read, 0 to 1.</summary>
    public double Progress => (double)_text.BaseStream.Position / Math.Max(1, _text.BaseStream.Length);

    /// <summary>Opens a trace.</summary>
    /// <param name="path">The file.</param>
    /// <param name="columns">Which columns to read.</param>
    /// <exception cref="InputException">There is no such file, it is empty or no table, lacks the columns, or leaves open which are meant.</exception>
    public static TraceFile Open(string path, TraceColumns columns)
    {
        if (!File.Exists(path))
        {
            throw new InputException(Directory.Exists(path)
                ? Fact.Of("table.is-folder", ("file", path))
                : Fact.Of("table.no-such-file", ("file", path)));
        }

        return Open(() => new FileStream(path, new FileStreamOptions { BufferSize = 1 << 16, Options = FileOptions.SequentialScan }), path, columns);
    }

    /// <summary>Opens a trace that can be opened more than once, wherever it lies.</summary>
    /// <param name="open">Opens it.</param>
    /// <param name="path">Its name for messages.</param>
    /// <param name="columns">Which columns to read.</param>
    internal static TraceFile Open(Func<Stream> open, string path, TraceColumns columns) =>
        FileKinds.IsSpreadsheet(open)
            ? new TraceFile(path, Spreadsheet.AsText(open, path), columns)
            : new TraceFile(path, FileKinds.Text(open, path), columns);

    /// <summary>Opens a trace of text and never of a spreadsheet, which would be unpacked in memory before anything of it is known.</summary>
    /// <param name="open">Opens it.</param>
    /// <param name="path">Its name for messages.</param>
    /// <param name="columns">Which columns to read.</param>
    internal static TraceFile OpenText(Func<Stream> open, string path, TraceColumns columns) =>
        new(path, FileKinds.Text(open, path), columns);

    /// <summary>Reads the next samples.</summary>
    /// <param name="timesS">Receives times [s].</param>
    /// <param name="pressuresPa">Receives pressures [Pa]; same length.</param>
    /// <returns>How many were read; 0 at the end.</returns>
    public int Read(Span<double> timesS, Span<double> pressuresPa)
    {
        int count = 0;
        while (count < timesS.Length && NextRow())
        {
            SepReader.Row row = _rows.Current;
            if (TryRead(row, out double time, out double pressure))
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

    private bool TryRead(SepReader.Row row, out double timeS, out double pressurePa)
    {
        (timeS, pressurePa) = (0, 0);
        if (Math.Max(_header.Time, _header.Pressure) >= row.ColCount
            || !double.TryParse(row[_header.Pressure].Span.Trim(" \""), NumberStyles.Float, _numbers, out pressurePa))
        {
            return false;
        }

        pressurePa *= _pressureScale;
        return double.IsFinite(pressurePa) && _times.TryRead(row[_header.Time].Span.Trim(" \""), out timeS) && Math.Abs(timeS) <= LatestS;
    }

    private static IEnumerable<string> Column(List<string[]> rows, int place) => rows.Where(r => r.Length > place).Select(r => r[place]);

    private static (TableLayout Layout, List<string[]> First, bool Quoted, List<string> Above) Look(Func<Stream> open, string path, TraceColumns columns)
    {
        TableLayout layout;
        using (var text = new StreamReader(open()))
        {
            layout = TableLayout.Read(text, columns, path);
        }

        using var again = new StreamReader(open());
        var above = new List<string>();
        for (int line = 0; line <= layout.HeaderLine; line++)
        {
            string read = TableLayout.ReadLine(again, path) ?? "";
            if (line < layout.HeaderLine)
            {
                above.Add(read);
            }
        }

        var first = new List<string[]>();
        bool quoted = false;
        while (first.Count < RowsToLookAt && TableLayout.ReadLine(again, path) is { } line)
        {
            quoted |= line.Contains('"', StringComparison.Ordinal);
            first.Add(TableLayout.Cells(line, layout.Separator));
        }

        return (layout, first, quoted, above);
    }
}
