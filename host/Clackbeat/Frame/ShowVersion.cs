using System.CommandLine;
using System.CommandLine.Invocation;
using System.Reflection;

namespace Clackbeat.Frame;

/// <summary>Prints the program's version, whatever process hosts it.</summary>
internal sealed class ShowVersion(Session session) : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <summary>The version.</summary>
    public static string Number { get; } = typeof(ShowVersion).Assembly
        .GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "";

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        session.Out.WriteLine(Number);
        return ExitCode.Done;
    }
}
