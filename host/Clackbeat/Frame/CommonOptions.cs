using System.CommandLine;

namespace Clackbeat.Frame;

/// <summary>Options that mean the same in every command.</summary>
internal static class CommonOptions
{
    /// <summary><c>--json</c></summary>
    public static Option<bool> Json() => new("--json") { Description = "Print one JSON object and nothing else" };

    /// <summary><c>--overwrite</c></summary>
    public static Option<bool> Overwrite() => new("--overwrite") { Description = "Replace a file that exists" };

    /// <summary><c>--site FILE</c></summary>
    public static Option<string> Site() => new("--site")
    {
        Description = "Site file that describes the ram (made by 'clackbeat site new')",
        HelpName = "SITE",
        Required = true,
    };

    /// <summary>Whether an option stands on the command line, and not only its usual value.</summary>
    public static bool IsGiven(ParseResult line, Option option) => line.GetResult(option) is { Implicit: false };

    /// <summary>The first of some options that stands on the command line; null for none.</summary>
    public static Option? FirstGiven(ParseResult line, params IEnumerable<Option> options) => options.FirstOrDefault(o => IsGiven(line, o));
}
