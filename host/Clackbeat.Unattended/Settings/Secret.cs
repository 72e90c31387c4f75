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
                : throw InputException.Of("logging.password-unset", ("name", name));
        }

        if (!System.IO.File.Exists(File))
        {
            throw InputException.Of("logging.password-file", ("file", File ?? ""));
        }

        const UnixFileMode Others = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.OtherRead | UnixFileMode.OtherWrite;
        if (!OperatingSystem.IsWindows() && (System.IO.File.GetUnixFileMode(File!) & Others) != 0)
        {
            throw InputException.Of("logging.password-open", ("file", File ?? ""));
        }

        return System.IO.File.ReadAllText(File!).Trim();
    }

    /// <summary>What the keys <c>…_env</c> and <c>…_file</c> of a table name; null for neither.</summary>
    internal static Secret? In(ConfigDocument document, string table, string key, string folder)
    {
        string? variable = document.Text(table, $"{key}_env");
        string? file = document.Text(table, $"{key}_file");
        return (variable, file) switch
        {
            (null, null) => null,
            (not null, _) => new Secret(variable, null),
            _ => new Secret(null, Path.GetFullPath(file!, folder)),
        };
    }

    /// <summary>Never shows the password.</summary>
    public override string ToString() => Variable ?? File ?? "";
}
