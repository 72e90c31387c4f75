using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using Clackbeat.Commands;
using Clackbeat.Frame;
using Clackbeat.Words;

namespace Clackbeat;

/// <summary>The whole program behind its streams, so that it runs in a test as it runs in a shell.</summary>
public static class App
{
    /// <summary>Runs one command line on plain streams.</summary>
    /// <param name="args">The command line, without the program's name.</param>
    /// <param name="output">Takes results.</param>
    /// <param name="error">Takes words about the work.</param>
    /// <param name="stop">Asks a command to end early and in order.</param>
    /// <returns>The exit code, see <see cref="ExitCode"/>.</returns>
    public static int Run(IReadOnlyList<string> args, TextWriter output, TextWriter error, CancellationToken stop = default) =>
        Run(args, Session.OnStreams(output, error, stop));

    internal static int Run(IReadOnlyList<string> args, Session session)
    {
        try
        {
            Option<string?> language = Speech.CreateOption();
            ParseResult parsed = CreateRoot(session, language, args.Count > 0 ? args[0] : null).Parse(args, new ParserConfiguration { ResponseFileTokenReplacer = null });
            if (parsed.Action is ParseErrorAction || UsageError.HasOptionAsWord(parsed, args))
            {
                return UsageError.Explain(parsed, args, session);
            }

            using IDisposable spoken = Catalogue.Use(Speech.Of(parsed, language));
            NamedFiles.Take(parsed);
            return parsed.Invoke(new InvocationConfiguration
            {
                EnableDefaultExceptionHandler = false,
                Output = session.Out,
                Error = session.Error,
            });
        }
        catch (Exception failure) when (!Failure.WantsDetails)
        {
            return Failure.Explain(failure, session);
        }
    }

    private static RootCommand CreateRoot(Session session, Option language, string? first)
    {
        var root = new RootCommand(
            "Listens to a hydraulic ram pump through one pressure sensor on its body, and tells how it beats, what "
            + "flows, what is wrong and whether the pipe is safe.")
        {
            HelpName = "clackbeat",
        };
        root.Add(language);
        foreach (Command command in CommandList.Create(session, first))
        {
            root.Add(command);
        }

        foreach (Option option in root.Options)
        {
            switch (option)
            {
                case HelpOption help:
                    help.Description = "Show help for the program or, after a command, for that command";
                    help.Action = new HelpWithExamples(session);
                    break;
                case VersionOption version:
                    version.Description = "Show the program's version and the commit it was built from";
                    version.Action = new ShowVersion(session);
                    break;
            }
        }

        return root;
    }
}
