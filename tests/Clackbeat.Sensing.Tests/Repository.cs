namespace Clackbeat.Sensing.Tests;

/// <summary>Files of the repository that the tests hold the code against.</summary>
internal static class Repository
{
    /// <summary>True when the drawings and lists are to be made anew rather than compared.</summary>
    public static bool Draws => Environment.GetEnvironmentVariable("CLACKBEAT_DRAW") == "1";

    public static string Text(params string[] names) => File.ReadAllText(PathOf(names)).ReplaceLineEndings("\n");

    public static string PathOf(params string[] names)
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Clackbeat.slnx")))
        {
            folder = folder.Parent;
        }

        return Path.Combine([folder!.FullName, .. names]);
    }

    /// <summary>Compares a file with what it must be, or writes it where that was asked for.</summary>
    public static void HoldTo(string made, params string[] names)
    {
        if (Draws)
        {
            File.WriteAllText(PathOf(names), made);
        }

        Assert.True(Text(names) == made, $"{Path.Combine(names)} is not what the netlist gives: run the tests once with CLACKBEAT_DRAW=1");
    }
}
