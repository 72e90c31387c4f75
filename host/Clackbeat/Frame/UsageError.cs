using System.CommandLine;
using System.CommandLine.Parsing;
using System.Text.RegularExpressions;
using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Frame;

/// <summary>Says what a command line lacks or has too much of, and which word may have been meant.</summary>
internal static partial class UsageError
{
    /// <summary>Explains the errors of a command line.</summary>
    public static int Explain(ParseResult parsed, IReadOnlyList<string> args, Session session)
    {
        Command command = parsed.CommandResult.Command;
        string? path = PathOf(parsed.CommandResult);
        if (args.Count == 0)
        {
            using IDisposable spoken = Catalogue.Use(Speech.OfSystem(Environment.GetEnvironmentVariable));
            FirstSteps.Write(session.Error);
            return ExitCode.WrongInput;
        }

        if (parsed.Tokens.Count == 0 || IsOnlyMissingCommand(parsed))
        {
            HelpWithExamples.Write(parsed, session.Error);
            return ExitCode.WrongInput;
        }

        foreach (string word in OptionsAsWords(parsed, args).Concat(StrayWords(parsed)).Concat(parsed.UnmatchedTokens).Distinct())
        {
            session.Say(Unknown(word, command, path));
        }

        foreach (string message in parsed.Errors.Select(e => e.Message).Distinct().Where(m => !IsAboutUnmatched(m, parsed)))
        {
            session.Say(Readable(message));
        }

        session.Say(Phrases.Say("frame.see-help", ("command", path)));
        return ExitCode.WrongInput;
    }

    /// <summary>A misspelt option was taken for a file name, as happens where a command expects one, or a word stands before a sub-command that doesn't take it.</summary>
    public static bool HasOptionAsWord(ParseResult parsed, IReadOnlyList<string> args) =>
        parsed.Action is not HelpWithExamples and not ShowVersion && (OptionsAsWords(parsed, args).Any() || StrayWords(parsed).Any());

    // A word before a sub-command that doesn't take it would be left out without a sign.
    private static IEnumerable<string> StrayWords(ParseResult parsed)
    {
        for (SymbolResult? above = parsed.CommandResult.Parent; above is CommandResult parent; above = parent.Parent)
        {
            if (parent.Command is ExampleCommand { SharesArguments: false })
            {
                foreach (Token token in parent.Children.OfType<ArgumentResult>().SelectMany(a => a.Tokens))
                {
                    yield return token.Value;
                }
            }
        }
    }

    // The library names types as programs call them.
    private static string Readable(string message) => WrongType().Match(message) is { Success: true } wrong
        ? wrong.Groups["type"].Value.StartsWith("System.Int", StringComparison.Ordinal)
            ? Phrases.Say("frame.no-whole-number", ("option", wrong.Groups["name"].Value), ("word", wrong.Groups["word"].Value))
            : Phrases.Say("frame.no-number", ("option", wrong.Groups["name"].Value), ("word", wrong.Groups["word"].Value))
        : message;

    // After a bare "--" a word is a word, whatever it begins with.
    private static IEnumerable<string> OptionsAsWords(ParseResult parsed, IReadOnlyList<string> args) => args.Contains("--")
        ? []
        : parsed.CommandResult.Children.OfType<ArgumentResult>().SelectMany(a => a.Tokens).Select(t => t.Value)
            .Where(word => word.StartsWith("--", StringComparison.Ordinal));

    private static bool IsOnlyMissingCommand(ParseResult parsed) =>
        parsed.UnmatchedTokens.Count == 0 && parsed.CommandResult.Command.Subcommands.Count > 0 && parsed.Errors.Count == 1;

    private static bool IsAboutUnmatched(string message, ParseResult parsed) =>
        parsed.UnmatchedTokens.Any(word => message.Contains($"'{word}'", StringComparison.Ordinal))
        || (parsed.UnmatchedTokens.Count > 0 && parsed.CommandResult.Command.Subcommands.Count > 0);

    private static string Unknown(string word, Command command, string path)
    {
        bool isOption = word.StartsWith("--", StringComparison.Ordinal);
        IEnumerable<string> known = isOption ? OptionsOf(command) : command.Subcommands.Select(c => c.Name);
        string said = isOption ? Phrases.Say("frame.no-option", ("command", path), ("word", word))
            : command.Subcommands.Count > 0 ? Phrases.Say("frame.no-command", ("command", path), ("word", word))
            : Phrases.Say("frame.no-word", ("command", path), ("word", word));
        return Spelling.Nearest(word, known) is { } nearest ? Phrases.Say("frame.did-you-mean", ("what", said), ("near", nearest)) : said;
    }

    private static IEnumerable<string> OptionsOf(Command command) =>
        command.Options.Select(o => o.Name).Append("--help");

    [GeneratedRegex("^Cannot parse argument '(?<word>.*)' for (?:option|command|argument) '(?<name>[^']*)' as expected type '(?<type>System\\.(?:Double|Single|Decimal|Int[0-9]+))'", RegexOptions.ExplicitCapture)]
    private static partial Regex WrongType();

    private static string PathOf(CommandResult result) =>
        result.Parent is CommandResult parent ? $"{PathOf(parent)} {result.Command.Name}" : "clackbeat";
}
