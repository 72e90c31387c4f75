using System.Globalization;
using System.Text;
using Tomlyn.Syntax;

namespace Clackbeat.Site.Files;

/// <summary>A site file made fit to hand to strangers: what physics needs is kept, names and the keeper's own words are left out.</summary>
public static class SiteCopy
{
    /// <summary>What takes the place of the ram's name, which a site file can't do without.</summary>
    public const string NameLess = "A shared ram";

    // Free text in which a keeper may have written names and places. Every comment goes too.
    private static readonly HashSet<string> LeftOut = ["site.place", "site.keeper", "site.note", "flow_scale.setup"];

    /// <summary>Writes the same site without the ram's name, notes, names of parts and comments.</summary>
    /// <param name="text">A site file that stands.</param>
    /// <param name="calibrationFile">Name that a calibration is given.</param>
    public static string WithoutPlace(string text, string calibrationFile)
    {
        var copy = new StringBuilder();
        string at = "";
        foreach (SiteEntry? entry in SiteDocument.Parse(text.TrimStart('\uFEFF')).Entries.OrderBy(Place).ThenBy(e => e.Block))
        {
            string? table = Table(entry);
            if (LeftOut.Contains($"{table}.{entry.Path[^1]}"))
            {
                continue;
            }

            string? header = entry.Block < 0 ? $"[{table}]" : $"[[{table}]]";
            if (at != $"{header}{entry.Block}")
            {
                copy.Append(at.Length > 0 ? "\n" : "").Append(header).Append('\n');
                at = $"{header}{entry.Block}";
            }

            copy.Append(entry.Path[^1]).Append(" = ").Append(Value(table, entry, calibrationFile)).Append('\n');
        }

        return copy.ToString();
    }

    private static string Table(SiteEntry entry) => string.Join('.', entry.Path.Take(entry.Path.Count - 1));

    private static int Place(SiteEntry entry) => SiteSchema.Tables.Select(t => t.Name).ToList().IndexOf(Table(entry));

    private static string Value(string table, SiteEntry entry, string calibrationFile) => ($"{table}.{entry.Path[^1]}", entry.Value) switch
    {
        ("site.name", _) => Quoted(NameLess),
        ("fitting.name", _) => Quoted(string.Create(CultureInfo.InvariantCulture, $"fitting {entry.Block + 1}")),
        ("sensor.calibration", _) => Quoted(calibrationFile),
        (_, StringValueSyntax words) => Quoted(words.Value ?? ""),

        // A number, a date, true or false; a comment may hang on it.
        var (_, plain) => plain.ToString().Split('#')[0].Trim(),
    };

    private static string Quoted(string words) => $"\"{string.Concat(words.Select(Escaped))}\"";

    private static string Escaped(char letter) => letter switch
    {
        '"' => "\\\"",
        '\\' => "\\\\",
        < ' ' or '\u007F' => $"\\u{(int)letter:X4}",
        _ => letter.ToString(),
    };
}
