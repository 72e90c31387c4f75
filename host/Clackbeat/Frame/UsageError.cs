using System.CommandLine;
using System.CommandLine.Parsing;
using Clackbeat.Site;

namespace Clackbeat.Frame;

/// <summary>Says what a command line lacks or has too much of, and which word may have been meant.</summary>
internal static class UsageError
{
    /// <summary>Explains the errors of a command line.</summary>
    public static int Explain(ParseResult parsed, IReadOnlyList<string> args, Session session)
    {
        var command = parsed.CommandResult.Command;
        var path = PathOf(parsed.CommandResult);
        if (parsed.Tokens.Count == 0 || IsOnlyMissingCommand(parsed))
        {
            HelpWithExamples.Write(parsed, session.Error);
            return ExitCode.WrongInput;
        }

        foreach (var word in OptionsAsWords(parsed, args).Concat(parsed.UnmatchedTokens).Distinct())
        {
            session.Say(Unknown(word, command, path));
        }

        foreach (var message in parsed.Errors.Select(e => e.Message).Distinct().Where(m => !IsAboutUnmatched(m, parsed)))
        {
            session.Say(message);
        }

        session.Say($"See: {path} --help");
        return ExitCode.WrongInput;
    }

    /// <summary>A misspelt option was taken for a file name, as happens where a command expects one.</summary>
    public static bool HasOptionAsWord(ParseResult parsed, IReadOnlyList<string> args) =>
        parsed.Action is not HelpWithExamples and not ShowVersion && OptionsAsWords(parsed, args).Any();

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
        var isOption = word.StartsWith("--", StringComparison.Ordinal);
        var known = isOption ? OptionsOf(command) : command.Subcommands.Select(c => c.Name);
        var kind = isOption ? "option" : command.Subcommands.Count > 0 ? "command" : "word";
        var nearest = Spelling.Nearest(word, known);
        var hint = nearest is null ? "" : $" Did you mean '{nearest}'?";
        return $"'{path}' knows no {kind} '{word}'.{hint}";
    }

    private static IEnumerable<string> OptionsOf(Command command) =>
        command.Options.Select(o => o.Name).Append("--help");

    private static string PathOf(CommandResult result) =>
        result.Parent is CommandResult parent ? $"{PathOf(parent)} {result.Command.Name}" : "clackbeat";
}
