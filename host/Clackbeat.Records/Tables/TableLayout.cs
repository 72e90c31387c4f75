using System.Globalization;
using System.Text;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Records.Tables;

/// <summary>How a table is laid out: separator, quotes, decimal marks, and what its header names.</summary>
/// <param name="Separator">Between cells.</param>
/// <param name="Header">Its header row.</param>
/// <param name="HeaderLine">Number of the header's line, from 0.</param>
internal sealed record TableLayout(char Separator, TableHeader Header, int HeaderLine)
{
    // Loggers write pages of remarks before the table; more than this is no table.
    private const int MostPreambleLines = 200_000;

    // A row of a thousand columns is shorter. A file without line ends must not be taken into memory as one line.
    private const int LongestLine = 65_536;

    // Below the names may stand units and an empty line.
    private const int MostLinesToNumbers = 3;

    private static readonly char[] Separators = ['\t', ';', ','];

    /// <summary>Finds the header: a row of names with numbers below it.</summary>
    /// <exception cref="InputException">The file is empty, or no row names the columns.</exception>
    public static TableLayout Read(TextReader reader, TraceColumns columns, string file)
    {
        string[]? likelyHeader = null;
        bool any = false;
        var open = new List<TableLayout>();
        for (int line = 0; line < MostPreambleLines && ReadLine(reader, file) is { } text; line++)
        {
            any |= text.Length > 0;
            if (open.Find(layout => layout.IsProvenBy(Cells(text, layout.Separator))) is { } proven)
            {
                return proven;
            }

            open.RemoveAll(layout => line - layout.HeaderLine >= MostLinesToNumbers);
            foreach (char separator in Separators)
            {
                string[] cells = Cells(text, separator);
                if (TableHeader.Find(cells, columns) is { } header)
                {
                    var found = new TableLayout(separator, header, line);
                    if (header.IsSure)
                    {
                        return found;
                    }

                    open.Add(found);
                }

                likelyHeader ??= cells.Length > 1 && cells.Count(IsWord) > 1 ? cells : null;
            }
        }

        throw any ? NoColumns(likelyHeader, columns, file) : InputException.Of("table.empty", ("file", file));
    }

    /// <summary>The decimal mark of a column, by its first cells.</summary>
    public static NumberFormatInfo MarkOf(IEnumerable<string> cells, char separator)
    {
        bool comma = false;
        bool point = false;
        foreach (string cell in cells)
        {
            comma |= cell.Contains(',', StringComparison.Ordinal);
            point |= cell.Contains('.', StringComparison.Ordinal);
        }

        return comma && !point && separator != ','
            ? new NumberFormatInfo { NumberDecimalSeparator = ",", NumberGroupSeparator = " " }
            : NumberFormatInfo.InvariantInfo;
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
        Fact.Of("table.long-line", ("file", file)), cause);

    /// <summary>A line's cells; a quoted one may hold the separator.</summary>
    public static string[] Cells(string line, char separator)
    {
        if (!line.Contains('"', StringComparison.Ordinal))
        {
            return Array.ConvertAll(line.Split(separator), c => c.Trim());
        }

        var cells = new List<string>();
        var cell = new StringBuilder();
        bool quoted = false;
        foreach (char c in line)
        {
            if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == separator && !quoted)
            {
                cells.Add(cell.ToString().Trim());
                cell.Clear();
            }
            else
            {
                cell.Append(c);
            }
        }

        return [.. cells, cell.ToString().Trim()];
    }

    // A row of units below the names is remembered; numbers below them prove that they are names.
    private bool IsProvenBy(string[] cells)
    {
        if (cells.Length <= Math.Max(Header.Time, Header.Pressure))
        {
            return false;
        }

        NumberFormatInfo mark = MarkOf([cells[Header.Pressure]], Separator);
        bool isNumber = double.TryParse(cells[Header.Pressure], NumberStyles.Float, mark, out _);
        if (isNumber && TimeCells.FormOf(cells[Header.Time], MarkOf([cells[Header.Time]], Separator)) is not null)
        {
            return true;
        }

        Header.Units ??= isNumber ? null : cells;
        return false;
    }

    private static bool IsWord(string cell) => cell.Length > 0 && char.IsLetter(cell[0]);

    private static InputException NoColumns(string[]? header, TraceColumns columns, string file)
    {
        Fact found = header is null ? Fact.Of("table.no-header") : Fact.Of("table.header-found", ("columns", string.Join(", ", header)));
        return (columns.Time, columns.Pressure) is ({ } time, { } pressure)
            ? InputException.Of("table.no-columns-asked", ("file", file), ("time", time), ("pressure", pressure), ("found", found))
            : InputException.Of("table.no-columns", ("file", file), ("found", found));
    }
}
