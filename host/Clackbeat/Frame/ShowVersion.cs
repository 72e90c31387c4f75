using System.CommandLine;
using System.CommandLine.Invocation;

namespace Clackbeat.Frame;

/// <summary>Prints the program's version and commit, whatever process hosts it.</summary>
internal sealed class ShowVersion(Session session) : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        session.Out.WriteLine(ProgramVersion.WithCommit);
        return ExitCode.Done;
    }
}
