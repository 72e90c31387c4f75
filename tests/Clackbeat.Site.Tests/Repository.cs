namespace Clackbeat.Site.Tests;

/// <summary>Finds the sources this test was built from.</summary>
internal static class Repository
{
    public static string Root { get; } = Find(AppContext.BaseDirectory);

    private static string Find(string folder) => File.Exists(Path.Combine(folder, "Clackbeat.slnx"))
        ? folder
        : Find(Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(folder))
            ?? throw new InvalidOperationException("The tests run outside the repository."));
}
