namespace Clackbeat.Acceptance;

/// <summary>Finds the sources and the program this test was built from.</summary>
internal static class Repository
{
    public static string Root { get; } = Find(AppContext.BaseDirectory);

    /// <summary>The executable a user would start, built in the same configuration as this test.</summary>
    public static string Program
    {
        get
        {
            string? configuration = Directory.GetParent(Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory))!.Name;
            string? name = OperatingSystem.IsWindows() ? "clackbeat.exe" : "clackbeat";
            return Path.Combine(Root, "host", "Clackbeat", "bin", configuration, "net10.0", name);
        }
    }

    private static string Find(string folder) => File.Exists(Path.Combine(folder, "Clackbeat.slnx"))
        ? folder
        : Find(Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(folder))
            ?? throw new InvalidOperationException("The tests run outside the repository."));
}
