using System.Text;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Files;

/// <summary>Writes a site file with every key explained, of an invented ram, valid as it stands.</summary>
public static class SiteTemplate
{
    /// <summary>The name that messages show of it.</summary>
    public const string Name = "template.toml";

    private const int LineWidth = 100;

    private const string Opening = """
        This file describes one ram and its pipes. Put your own figures in the place of the invented ones below.
        A quantity is text with its unit: metric or US customary, freely mixed; figures have a decimal point.
        A line that starts with "# key =" is a key left out: take the mark away to use it.
        Check the file with: clackbeat site check FILE
        """;

    /// <summary>The text of the file.</summary>
    /// <param name="units">Units of its figures.</param>
    public static string Text(Units units)
    {
        var text = new StringBuilder();
        foreach (string line in Opening.Split('\n'))
        {
            text.Append("# ").Append(line.TrimEnd()).Append('\n');
        }

        foreach (SiteTable table in SiteSchema.Tables)
        {
            Write(text, table, units);
        }

        return text.ToString();
    }

    private static void Write(StringBuilder text, SiteTable table, Units units)
    {
        // A repeated table is an offer: header and keys stay behind comment marks.
        string? header = table.Repeated ? $"# {table.Header}" : table.Header;
        text.Append('\n');
        Comment(text, table.About);
        text.Append(header).Append('\n');
        foreach (SiteKey key in SiteSchema.KeysOf(table.Name))
        {
            text.Append('\n');
            Comment(text, table.Repeated || key.Required || key.LeftOut.Length == 0
                ? key.Meaning
                : $"{key.Meaning} If left out: {char.ToLowerInvariant(key.LeftOut[0])}{key.LeftOut[1..]}");
            text.Append(key.Written && !table.Repeated ? "" : "# ").Append(key.Key).Append(" = ").Append(key.Quoted(units)).Append('\n');
        }
    }

    private static void Comment(StringBuilder text, string words)
    {
        var line = new StringBuilder("#");
        foreach (string word in words.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length + 1 + word.Length > LineWidth)
            {
                text.Append(line).Append('\n');
                line.Clear().Append('#');
            }

            line.Append(' ').Append(word);
        }

        text.Append(line).Append('\n');
    }
}
