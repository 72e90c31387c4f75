using System.CommandLine;
using System.CommandLine.Invocation;
using System.Reflection;

namespace Clackbeat.Frame;

/// <summary>Prints the program's version, whatever process hosts it.</summary>
internal sealed class ShowVersion(Session session) : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        var version = typeof(ShowVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>();
        session.Out.WriteLine(version?.InformationalVersion);
        return ExitCode.Done;
    }
}
