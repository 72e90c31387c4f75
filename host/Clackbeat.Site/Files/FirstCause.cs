using System.Text.RegularExpressions;
using Clackbeat.Site.Facts;

namespace Clackbeat.Site.Files;

/// <summary>Finds the one mistake from which a parser's many follow: a quote that is missing, or a file of another kind.</summary>
internal static partial class FirstCause
{
    private const int LinesLookedAt = 50;
    private const int LongestShown = 60;

    /// <summary>The cause; null where none stands out.</summary>
    public static SiteProblem? Of(string[] lines)
    {
        string[] told = [.. lines.Select(l => l.Trim()).Where(l => l.Length > 0 && !l.StartsWith('#')).Take(LinesLookedAt)];
        if (told.Length > 0 && told.Count(IsTomlLike) * 2 < told.Length)
        {
            int first = Array.FindIndex(lines, l => l.Trim().Length > 0) + 1;
            return new SiteProblem(first, told.Count(l => Cells().IsMatch(l)) * 2 > told.Length
                ? Fact.Of("site.table-of-figures")
                : Fact.Of("site.hardly-a-line"));
        }

        for (int i = 0; i < lines.Length; i++)
        {
            string line = lines[i].TrimEnd('\r');
            // Text over several lines has its own quotes, which may stand alone on a line.
            if (line.Contains("\"\"\"", StringComparison.Ordinal) || line.Contains("'''", StringComparison.Ordinal))
            {
                return null;
            }

            if (HasOpenQuote(line))
            {
                return new SiteProblem(i + 1, Fact.Of("site.quote-missing", ("line", Shown(line.Trim()))));
            }
        }

        return null;
    }

    private static bool IsTomlLike(string line) => line.StartsWith('[') || line.StartsWith('}') || line.StartsWith(']') || Pair().IsMatch(line);

    // A quote that opens and doesn't close before the line ends, or one that closes what was never opened.
    private static bool HasOpenQuote(string line)
    {
        char open = '\0';
        for (int i = 0; i < line.Length; i++)
        {
            char c = line[i];
            if (open == '\0')
            {
                if (c == '#')
                {
                    return false;
                }

                open = c is '"' or '\'' ? c : open;
            }
            else if (c == '\\' && open == '"')
            {
                i++;
            }
            else if (c == open)
            {
                open = '\0';
            }
        }

        return open != '\0';
    }

    private static string Shown(string line) => line.Length <= LongestShown ? line : string.Concat(line.AsSpan(0, LongestShown), "…");

    [GeneratedRegex("""^[\w.\-"' ]+=""")]
    private static partial Regex Pair();

    [GeneratedRegex(@"^[^,;\t]*([,;\t][^,;\t]*)+$")]
    private static partial Regex Cells();
}
