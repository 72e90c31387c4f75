using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using Clackbeat.Words;

namespace Clackbeat.Frame;

/// <summary>A command that brings its examples along; its help ends with them.</summary>
internal class ExampleCommand(string name, string description, params IReadOnlyList<string> examples)
    : Command(name, description)
{
    /// <summary>Command lines a user may take over, without the program's name.</summary>
    public IReadOnlyList<string> Examples { get; } = examples;
}

/// <summary>The usual help, followed by the command's examples.</summary>
internal sealed class HelpWithExamples(Session session) : SynchronousCommandLineAction
{
    private const int WidthWithoutTerminal = 80;

    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        Write(parseResult, session.Out);
        return ExitCode.Done;
    }

    /// <summary>Writes the help of the command that was named.</summary>
    public static void Write(ParseResult parsed, TextWriter writer)
    {
        parsed.InvocationConfiguration.Output = writer;
        new HelpAction { MaxWidth = WidthWithoutTerminal }.Invoke(parsed);
        var examples = ExamplesOf(parsed.CommandResult.Command).ToList();
        if (examples.Count > 0)
        {
            writer.WriteLine(examples.Count == 1 ? Phrases.Say("frame.example") : Phrases.Say("frame.examples"));
            examples.ForEach(example => writer.WriteLine($"  clackbeat {example}"));
            writer.WriteLine();
        }
    }

    private static IEnumerable<string> ExamplesOf(Command command) => command is ExampleCommand own
        ? own.Examples
        : command.Subcommands.OfType<ExampleCommand>().SelectMany(c => ExamplesOf(c).Take(1)).Take(3);
}
