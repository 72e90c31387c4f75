using System.CommandLine;
using System.CommandLine.Parsing;
using Clackbeat.Site;

namespace Clackbeat.Frame;

/// <summary>
/// The files that a command line names. Nothing that a command reads is ever written over, whatever else was agreed to: every
/// output asks here, so no command can forget it.
/// </summary>
internal static class NamedFiles
{
    private static readonly AsyncLocal<string[]?> Words = new();

    private static readonly StringComparer Names =
        OperatingSystem.IsWindows() || OperatingSystem.IsMacOS() ? StringComparer.OrdinalIgnoreCase : StringComparer.Ordinal;

    /// <summary>Takes the words of a command line, which hold from here on in this flow of execution.</summary>
    public static void Take(ParseResult line) =>
        Words.Value = [.. line.Tokens.Where(t => t.Type == TokenType.Argument && t.Value.Length > 0).Select(t => t.Value)];

    /// <summary>Refuses an output that the command line names as something else too, by whatever spelling or link.</summary>
    /// <param name="path">Where something is to be written.</param>
    /// <exception cref="InputException">It is.</exception>
    public static void RefuseAsOutput(string path)
    {
        string[] words = Words.Value ?? [];
        string place = Place(path);
        string[] same = [.. words.Where(w => Names.Equals(Place(w), place))];
        int itself = same.Any(w => Names.Equals(Path.GetFullPath(w), Path.GetFullPath(path))) ? 1 : 0;
        if (same.Length > itself)
        {
            throw InputException.Of("input.named-twice", ("file", path));
        }
    }

    // One file may be spelt in many ways: with .., over a link, over a folder that is a link.
    private static string Place(string path)
    {
        try
        {
            string full = Path.GetFullPath(path);
            string at = Path.GetPathRoot(full)!;
            foreach (string part in full[at.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries))
            {
                at = Path.Combine(at, part);
                at = File.ResolveLinkTarget(at, returnFinalTarget: true) is { } target ? Place(target.FullName) : at;
            }

            return at;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            // Not every word is a path, and not every path can be looked at.
            return path;
        }
    }
}
