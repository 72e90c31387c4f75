using System.CommandLine;
using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Frame;

/// <summary>The language of a command: what <c>--language</c> says, else the system's, else English.</summary>
internal static class Speech
{
    // As POSIX has it (XBD 8.2): the first of these that is set and not empty.
    private static readonly string[] Variables = ["LC_ALL", "LC_MESSAGES", "LANG"];

    /// <summary><c>--language</c>, on every command.</summary>
    public static Option<string?> CreateOption() => new("--language")
    {
        Description = $"Language of what is said: {string.Join(", ", Codes)}. Left out: the system's. JSON stays in English",
        HelpName = "CODE",
        Recursive = true,
    };

    private static IEnumerable<string> Codes => Catalogue.All.Select(c => c.Language.Code);

    /// <summary>The catalogue that a command line asks for.</summary>
    /// <param name="line">The command line.</param>
    /// <param name="option">The option that was added to it.</param>
    public static Catalogue Of(ParseResult line, Option<string?> option) => line.GetValue(option) is { } code
        ? Catalogue.Find(code.ToLowerInvariant()) ?? throw InputException.Of("option.no-language", ("code", code), ("known", string.Join(", ", Codes)))
        : OfSystem(Environment.GetEnvironmentVariable);

    /// <summary>The catalogue of the system's language, English where there is none of it.</summary>
    /// <param name="variable">Reads a variable of the environment.</param>
    internal static Catalogue OfSystem(Func<string, string?> variable) =>
        Variables.Select(variable).FirstOrDefault(v => !string.IsNullOrEmpty(v)) is { Length: >= 2 } locale && (locale.Length == 2 || !char.IsLetter(locale[2]))
            ? Catalogue.Find(locale[..2].ToLowerInvariant()) ?? Catalogue.English
            : Catalogue.English;
}
