using System.Reflection;

namespace Clackbeat.Frame;

/// <summary>The version of the program, apart from all that costs time to load.</summary>
internal static class ProgramVersion
{
    /// <summary>The version.</summary>
    public static string Number { get; } = typeof(ProgramVersion).Assembly
        .GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "";

    /// <summary>The command line asks for the version and nothing else.</summary>
    public static bool IsAllThatIsAsked(string[] args) => args is ["--version"];
}
