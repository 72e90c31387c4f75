using System.Globalization;
using System.Text;
using Clackbeat.Site;

namespace Clackbeat.Signal.Traces;

/// <summary>How a table is laid out: separator, decimal mark, and where its two columns stand.</summary>
internal sealed record TableLayout(char Separator, int TimeColumn, int PressureColumn, NumberFormatInfo Numbers)
{
    // Loggers write pages of remarks before the table; more than this is no table.
    private const int MostPreambleLines = 200_000;

    // A row of a thousand columns is shorter. A file without line ends must not be taken into memory as one line.
    private const int LongestLine = 65_536;

    private static readonly char[] Separators = ['\t', ';', ','];

    /// <summary>Reads up to and including the header row and works out the layout.</summary>
    /// <exception cref="InputException">The file is empty, or no row names the columns.</exception>
    public static TableLayout Read(TextReader reader, TraceColumns columns, string file)
    {
        string[]? likelyHeader = null;
        bool any = false;
        for (int line = 0; line < MostPreambleLines && ReadLine(reader, file) is { } text; line++)
        {
            any |= text.Length > 0;
            foreach (char separator in Separators)
            {
                string[] cells = Cells(text, separator);
                if (Locate(cells, columns) is var (time, pressure))
                {
                    return new TableLayout(separator, time, pressure, NumberFormatInfo.InvariantInfo);
                }

                if (cells.Length > 1 && (likelyHeader is null) && cells.Count(IsWord) > 1)
                {
                    likelyHeader = cells;
                }
            }
        }

        throw any ? NoColumns(likelyHeader, columns, file) : new InputException($"{file} is empty.");
    }

    /// <summary>The layout with the decimal mark that its first rows use.</summary>
    public TableLayout WithDecimalMarkOf(string rows)
    {
        bool comma = Separator != ',' && rows.Contains(',', StringComparison.Ordinal) && !rows.Contains('.', StringComparison.Ordinal);
        return comma ? this with { Numbers = new NumberFormatInfo { NumberDecimalSeparator = ",", NumberGroupSeparator = " " } } : this;
    }

    /// <summary>The next line; null at the end.</summary>
    /// <exception cref="InputException">It is longer than any row of a table.</exception>
    public static string? ReadLine(TextReader reader, string file)
    {
        int next = reader.Read();
        if (next < 0)
        {
            return null;
        }

        var line = new StringBuilder();
        for (; next is >= 0 and not '\n' and not '\r'; next = reader.Read())
        {
            line.Append((char)next);
            if (line.Length > LongestLine)
            {
                throw LineTooLong(file, null);
            }
        }

        if (next == '\r' && reader.Peek() == '\n')
        {
            reader.Read();
        }

        return line.ToString();
    }

    /// <summary>What to say of a line that is no row.</summary>
    public static InputException LineTooLong(string file, Exception? cause) => new(
        $"{file} has a line that is too long for a table's row. Export the trace as CSV or TSV, a row a sample.", cause);

    private static (int Time, int Pressure)? Locate(string[] cells, TraceColumns columns)
    {
        int time = IndexOf(cells, columns.Time);
        int pressure = IndexOf(cells, columns.Pressure);
        return time >= 0 && pressure >= 0 && time != pressure ? (time, pressure) : null;
    }

    /// <summary>By name; a whole number stands for a place, counted from 1, in a row of at least that many numbers.</summary>
    private static int IndexOf(string[] cells, string column)
    {
        int named = Array.FindIndex(cells, c => c.Equals(column, StringComparison.OrdinalIgnoreCase));
        bool byPlace = int.TryParse(column, NumberStyles.None, CultureInfo.InvariantCulture, out int place);
        return named < 0 && byPlace && place >= 1 && place <= cells.Length && cells.Length > 1 ? place - 1 : named;
    }

    private static string[] Cells(string line, char separator) =>
        Array.ConvertAll(line.Split(separator), c => c.Trim().Trim('"').Trim());

    private static bool IsWord(string cell) => cell.Length > 0 && char.IsLetter(cell[0]);

    private static InputException NoColumns(string[]? header, TraceColumns columns, string file)
    {
        string wanted = $"{file} has no row that names both a column '{columns.Time}' and a column '{columns.Pressure}'.";
        string seen = header is null
            ? "No row of column names was found; columns can also be named by their place, as in --time 1:s --pressure 2:kPa."
            : $"Columns found: {string.Join(", ", header)}. Say which ones to use, as in --time \"{header[0]}:s\" --pressure \"{header[^1]}:kPa\".";
        return new InputException($"{wanted} {seen}");
    }
}
