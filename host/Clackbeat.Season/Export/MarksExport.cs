using System.Globalization;
using Clackbeat.Season.Store;
using nietras.SeparatedValues;

namespace Clackbeat.Season.Export;

/// <summary>What keepers did, as one table: a row a mark, times in UTC.</summary>
public static class MarksExport
{
    /// <summary>Writes the marks of rams as CSV and as Parquet.</summary>
    /// <param name="store">The store.</param>
    /// <param name="rams">The rams.</param>
    /// <param name="folder">Where <c>marks.csv</c> and <c>marks.parquet</c> go; it is there.</param>
    /// <returns>How many marks.</returns>
    public static int Write(ISeasonStore store, IEnumerable<string> rams, string folder)
    {
        MaintenanceMark[] marks = [.. rams.SelectMany(store.Marks)];
        Replace(Path.Combine(folder, "marks.csv"), stream =>
        {
            using var text = new StreamWriter(stream);
            using SepWriter writer = Sep.New(',').Writer(o => o with { Escape = true }).To(text);
            foreach (MaintenanceMark mark in marks)
            {
                using SepWriter.Row row = writer.NewRow();
                row["ram"].Set(mark.Ram);
                row["at_utc"].Set(mark.AtUtc.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture));
                row["words"].Set(mark.Words);
            }

            if (marks.Length == 0)
            {
                text.WriteLine("ram,at_utc,words");
            }
        });
        Replace(Path.Combine(folder, "marks.parquet"), stream => ParquetColumn.Write(stream,
        [
            ParquetColumn.Words("ram", marks.Select(m => m.Ram)),
            ParquetColumn.Instants("at_utc", marks.Select(m => m.AtUtc)),
            ParquetColumn.Words("words", marks.Select(m => m.Words)),
        ]));
        return marks.Length;
    }

    private static void Replace(string file, Action<Stream> write)
    {
        string part = file + ".part";
        using (FileStream stream = File.Create(part))
        {
            write(stream);
        }

        File.Move(part, file, overwrite: true);
    }
}
