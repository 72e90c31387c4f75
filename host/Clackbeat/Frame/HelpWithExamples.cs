using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using Clackbeat.Words;

namespace Clackbeat.Frame;

/// <summary>A command that brings its examples along; its help ends with them.</summary>
internal class ExampleCommand(string name, string description, params IReadOnlyList<string> examples)
    : Command(name, description)
{
    /// <summary>Command lines a user may take over, without the program's name.</summary>
    public IReadOnlyList<string> Examples { get; } = examples;

    /// <summary>Exit codes besides "done" and "wrong input" that tell a script something; see <see cref="ExitCode"/>.</summary>
    public IReadOnlyList<int> ExitCodes { get; private set; } = [];

    /// <summary>Its arguments are also those of its sub-commands, and stand before their names.</summary>
    public bool SharesArguments { get; set; }

    /// <summary>Names the exit codes besides "done" and "wrong input"; the help tells what they mean.</summary>
    public void MayEndWith(params IReadOnlyList<int> codes) => ExitCodes = codes;
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
        HideArgumentsOfOthers(parsed.CommandResult);
        new HelpAction { MaxWidth = WidthWithoutTerminal }.Invoke(parsed);
        var examples = ExamplesOf(parsed.CommandResult.Command).ToList();
        if (examples.Count > 0)
        {
            writer.WriteLine(examples.Count == 1 ? Phrases.Say("frame.example") : Phrases.Say("frame.examples"));
            examples.ForEach(example => writer.WriteLine($"  clackbeat {example}"));
            writer.WriteLine();
        }

        WriteExitCodes(parsed.CommandResult.Command, writer);
    }

    // A word that belongs to the command above is none of this one's.
    private static void HideArgumentsOfOthers(CommandResult command)
    {
        for (SymbolResult? above = command.Parent; above is CommandResult parent; above = parent.Parent)
        {
            if (parent.Command is not ExampleCommand { SharesArguments: true })
            {
                parent.Command.Arguments.ToList().ForEach(a => a.Hidden = true);
            }
        }
    }

    private static void WriteExitCodes(Command command, TextWriter writer)
    {
        if (command is not ExampleCommand { ExitCodes: { Count: > 0 } more })
        {
            return;
        }

        writer.WriteLine(Phrases.Say("frame.exit-codes"));
        foreach (int code in more.Concat([ExitCode.Done, ExitCode.Failed, ExitCode.WrongInput]).Distinct().Order())
        {
            writer.WriteLine($"  {code}  {Phrases.Say($"exits.{code}")}");
        }

        writer.WriteLine();
    }

    private static IEnumerable<string> ExamplesOf(Command command) => command is ExampleCommand own
        ? own.Examples
        : command.Subcommands.OfType<ExampleCommand>().SelectMany(c => ExamplesOf(c).Take(1)).Take(3);
}
