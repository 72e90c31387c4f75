using System.Text.RegularExpressions;

namespace Clackbeat.Site.Files;

/// <summary>Makes the quotes that word processors and phones put in straight, where they stand for TOML's.</summary>
internal static partial class CurlyQuotes
{
    /// <summary>The text with straight quotes. A line that has straight ones keeps its curly ones: they are part of the words.</summary>
    public static string Straightened(string text) => Curly().IsMatch(text)
        ? string.Join('\n', text.Split('\n').Select(Line))
        : text;

    private static string Line(string line) => line.Contains('"', StringComparison.Ordinal)
        ? line
        : Single().Replace(Double().Replace(line, "\""), "${before}\"${words}\"");

    [GeneratedRegex("[\u201C-\u201F\u2018-\u201B\u00AB\u00BB]")]
    private static partial Regex Curly();

    [GeneratedRegex("[\u201C-\u201F\u00AB\u00BB]")]
    private static partial Regex Double();

    // ‘2.5 m’ as a whole value; an apostrophe within words stays.
    [GeneratedRegex("(?<before>=\\s*)[\u2018-\u201B](?<words>[^\"\u2018-\u201B]*)[\u2018-\u201B]")]
    private static partial Regex Single();
}
