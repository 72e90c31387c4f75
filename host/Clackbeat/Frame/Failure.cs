using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Frame;

/// <summary>Turns what went wrong into words and an exit code; a stack trace only where it was asked for.</summary>
internal static class Failure
{
    private const string DetailsVariable = "CLACKBEAT_DEBUG";

    /// <summary>The environment asks for failures as the runtime shows them.</summary>
    public static bool WantsDetails => Environment.GetEnvironmentVariable(DetailsVariable) == "1";

    /// <summary>Says what went wrong on the error stream.</summary>
    public static int Explain(Exception failure, Session session)
    {
        switch (failure)
        {
            case InputException:
                session.Say(failure.Message);
                return ExitCode.WrongInput;
            case OperationCanceledException:
                session.Say(Phrases.Say("frame.stopped"));
                return ExitCode.Failed;
            case FileNotFoundException or DirectoryNotFoundException:
                session.Say(Phrases.Say("frame.not-found", ("why", Sentence(failure))));
                return ExitCode.WrongInput;
            case UnauthorizedAccessException:
                session.Say(Phrases.Say("frame.not-allowed", ("why", Sentence(failure))));
                return ExitCode.Failed;
            case IOException:
                session.Say(Phrases.Say("frame.io-failed", ("why", Sentence(failure))));
                return ExitCode.Failed;
            default:
                session.Say(
                    Phrases.Say("frame.unexpected", ("why", Sentence(failure)), ("variable", DetailsVariable)));
                return ExitCode.Failed;
        }
    }

    private static string Sentence(Exception failure)
    {
        string? words = failure.Message.ReplaceLineEndings(" ").Trim();
        return words.EndsWith('.') ? words : $"{words}.";
    }
}
