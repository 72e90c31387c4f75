namespace Clackbeat.Fuzz;

/// <summary>A folder for readers that read from the disk; it goes with the process.</summary>
internal static class Scratch
{
    /// <summary>The folder.</summary>
    public static string Folder { get; } = Made();

    /// <summary>A file in it.</summary>
    public static string File(string name) => Path.Combine(Folder, name);

    private static string Made()
    {
        string folder = Directory.CreateTempSubdirectory("clackbeat-fuzz-").FullName;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
        return folder;
    }
}
