using System.Globalization;
using System.Text;
using Clackbeat.Site;
using ExcelDataReader;

namespace Clackbeat.Records.Tables;

/// <summary>The first sheet of a spreadsheet that holds anything, as the text table it would be exported to.</summary>
internal static class Spreadsheet
{
    /// <summary>The sheet as tab-separated text: numbers as they are, dates by ISO 8601.</summary>
    /// <exception cref="InputException">The file can't be read or holds nothing.</exception>
    public static Func<Stream> AsText(Func<Stream> open, string path)
    {
        // The older binary form needs code pages that the runtime carries and doesn't load by itself.
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        try
        {
            using Stream stream = open();
            using IExcelDataReader sheets = ExcelReaderFactory.CreateReader(stream);
            do
            {
                if (Text(sheets) is { Length: > 0 } text)
                {
                    return () => new MemoryStream(text, writable: false);
                }
            }
            while (sheets.NextResult());
        }
        catch (Exception fault) when (IsOfTheFile(fault))
        {
            throw InputException.Of(fault, "table.spreadsheet-broken", ("file", path));
        }

        throw InputException.Of("table.spreadsheet-empty", ("file", path));
    }

    // A damaged file makes the library fail in many ways, also by an index or a value that is missing; what else can happen is a fault of the disk.
    private static bool IsOfTheFile(Exception fault) =>
        fault is EndOfStreamException or not (IOException or UnauthorizedAccessException or OutOfMemoryException or InputException);

    private static byte[] Text(IExcelDataReader sheet)
    {
        using var text = new MemoryStream();
        using var writer = new StreamWriter(text, new UTF8Encoding(false));
        bool any = false;
        while (sheet.Read())
        {
            for (int column = 0; column < sheet.FieldCount; column++)
            {
                string cell = Cell(sheet.GetValue(column));
                any |= cell.Length > 0;
                writer.Write(column > 0 ? "\t" : "");
                writer.Write(cell);
            }

            writer.Write('\n');
        }

        writer.Flush();
        return any ? text.ToArray() : [];
    }

    private static string Cell(object? value) => value switch
    {
        null => "",
        double number => number.ToString("R", CultureInfo.InvariantCulture),
        DateTime time => time.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFFF", CultureInfo.InvariantCulture),
        TimeSpan span => span.TotalHours >= 24
            ? span.ToString(@"d\.hh\:mm\:ss\.FFFFFFF", CultureInfo.InvariantCulture)
            : span.ToString(@"hh\:mm\:ss\.FFFFFFF", CultureInfo.InvariantCulture),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString()!.Replace('\t', ' ').Replace('\n', ' ').Replace('\r', ' ').Replace('"', '\''),
    };
}
