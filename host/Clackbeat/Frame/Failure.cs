using Clackbeat.Site;

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
                session.Say("Stopped before the work was done.");
                return ExitCode.Failed;
            case FileNotFoundException or DirectoryNotFoundException:
                session.Say($"Not found: {Sentence(failure)} Check the path.");
                return ExitCode.WrongInput;
            case UnauthorizedAccessException:
                session.Say($"Not allowed: {Sentence(failure)} Choose another place or ask for the right to it.");
                return ExitCode.Failed;
            case IOException:
                session.Say($"Reading or writing failed: {Sentence(failure)} Check the disk, its free space and the cable.");
                return ExitCode.Failed;
            default:
                session.Say(
                    $"Something unexpected went wrong: {Sentence(failure)} "
                    + $"To see the details, run the same command with {DetailsVariable}=1 in the environment.");
                return ExitCode.Failed;
        }
    }

    private static string Sentence(Exception failure)
    {
        var words = failure.Message.ReplaceLineEndings(" ").Trim();
        return words.EndsWith('.') ? words : $"{words}.";
    }
}
