using Clackbeat.Site;

namespace Clackbeat.Unattended.Settings;

/// <summary>A password that stands in no configuration: in the environment, or in a file that only its owner may read.</summary>
/// <param name="Variable">Name of an environment variable; null for a file.</param>
/// <param name="File">The file; null for a variable.</param>
public sealed record Secret(string? Variable, string? File)
{
    /// <summary>The password.</summary>
    /// <exception cref="InputException">It is nowhere, or others may read its file.</exception>
    public string Read()
    {
        if (Variable is { } name)
        {
            return Environment.GetEnvironmentVariable(name) is { Length: > 0 } value
                ? value
                : throw new InputException($"The environment variable {name}, which holds a password, is not set.");
        }

        if (!System.IO.File.Exists(File))
        {
            throw new InputException($"{File}: there is no such file with a password.");
        }

        const UnixFileMode Others = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.OtherRead | UnixFileMode.OtherWrite;
        if (!OperatingSystem.IsWindows() && (System.IO.File.GetUnixFileMode(File!) & Others) != 0)
        {
            throw new InputException($"{File}: others may read this password. Close it to them first: chmod 600 {File}");
        }

        return System.IO.File.ReadAllText(File!).Trim();
    }

    /// <summary>Never shows the password.</summary>
    public override string ToString() => Variable ?? File ?? "";
}
