using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Clackbeat.Season.Store;

namespace Clackbeat.Season.Export;

/// <summary>
/// A season store as Apache Parquet files in folders by site and day, <c>bursts/site=…/day=2025-06-12/part-0.parquet</c> and the
/// same under <c>beats</c>: the layout that engines for larger analyses read as one table and of which they open only what a
/// question needs. Days are of UTC. A day is written whole or not at all.
/// </summary>
/// <param name="folder">Where to.</param>
public sealed class SeasonParquet(string folder)
{
    private const string FileName = "part-0.parquet";

    // Disks take 255 bytes (ext4, NTFS: letters) for a name; some of them are "site=".
    private const int LongestFolder = 200;

    /// <summary>Writes the days of a span that hold bursts; a day that is there already is written anew.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="span">Of which bursts; days at its ends are cut there.</param>
    /// <returns>Days, bursts and beats written.</returns>
    public (int Days, int Bursts, long Beats) Write(ISeasonStore store, string ram, TimeSpanUtc span)
    {
        (int days, int bursts, long beats) = (0, 0, 0);
        var day = new List<SeasonBurst>();
        void Finish()
        {
            if (day.Count > 0)
            {
                WriteDay(ram, day);
                days++;
                bursts += day.Count;
                beats += day.Sum(b => (long)b.Beats.Count);
                day.Clear();
            }
        }

        foreach (SeasonBurst burst in store.Bursts(ram, span))
        {
            if (day.Count > 0 && DayOf(day[0]) != DayOf(burst))
            {
                Finish();
            }

            day.Add(burst);
        }

        Finish();
        return (days, bursts, beats);
    }

    private static DateOnly DayOf(SeasonBurst burst) => DateOnly.FromDateTime(burst.StartUtc.UtcDateTime);

    private void WriteDay(string ram, List<SeasonBurst> bursts)
    {
        string day = DayOf(bursts[0]).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        Write("bursts", ram, day, ParquetColumns.OfBursts(bursts));
        Write("beats", ram, day, ParquetColumns.OfBeats([.. bursts.SelectMany(burst => burst.Beats.Select((beat, i) => (burst, i, beat)))]));
    }

    private void Write(string table, string ram, string day, IReadOnlyList<ParquetColumn> columns)
    {
        string place = Directory.CreateDirectory(Path.Combine(folder, table, $"site={Escape(ram)}", $"day={day}")).FullName;
        string file = Path.Combine(place, FileName);

        // Engines pass over names that begin with a dot, so that a half-written file is never read.
        string part = Path.Combine(place, $".{FileName}.part");
        using (FileStream stream = File.Create(part))
        {
            ParquetColumn.Write(stream, columns);
        }

        File.Move(part, file, overwrite: true);
    }

    // The folder names of Hive: whatever a path can't hold stands as a percent sign and two hexadecimal digits, so do a full stop and a
    // space at the end, which Windows would drop. What no disk takes for its length ends in a mark of its own.
    private static string Escape(string name)
    {
        string escaped = string.Concat(name.Select((c, i) =>
            char.IsControl(c) || "\"#%'*/:=?\\{[]^<>|".Contains(c, StringComparison.Ordinal) || (i == name.Length - 1 && c is '.' or ' ')
                ? $"%{(int)c:X2}"
                : c.ToString()));
        return Encoding.UTF8.GetByteCount(escaped) <= LongestFolder
            ? escaped
            : $"{string.Concat(name.Where(char.IsAsciiLetterOrDigit).Take(40))}~{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(name)))[..16]}";
    }
}
