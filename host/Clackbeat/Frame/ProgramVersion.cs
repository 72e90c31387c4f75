using System.Reflection;

namespace Clackbeat.Frame;

/// <summary>The version of the program, apart from all that costs time to load.</summary>
internal static class ProgramVersion
{
    // Hexadecimal digits of a commit that are shown: enough to find it by.
    private const int CommitDigits = 12;

    // Built from sources that carry no history, such as an unpacked archive.
    private const string NoCommit = "no-commit";

    /// <summary>The version with the commit it was built from, as in <c>0.1.0+0163026c0de5</c>: build metadata of Semantic Versioning 2.0.0, item 10.</summary>
    public static string WithCommit { get; } = Shown(typeof(ProgramVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "");

    /// <summary>The version alone, as files name the program that made them.</summary>
    public static string Number { get; } = WithCommit.Split('+')[0];

    /// <summary>The command line asks for the version and nothing else.</summary>
    public static bool IsAllThatIsAsked(string[] args) => args is ["--version"];

    /// <summary>The version as it is shown.</summary>
    /// <param name="built">What the build wrote: the version, and after a plus sign the commit if it knew one.</param>
    internal static string Shown(string built)
    {
        string[] parts = built.Split('+', 2);
        return $"{parts[0]}+{(parts is [_, { Length: > 0 } commit] ? commit[..Math.Min(commit.Length, CommitDigits)] : NoCommit)}";
    }
}
