namespace Clackbeat.Fuzz;

/// <summary>A file for readers that want one by its name: in memory where the system has such a folder.</summary>
internal static class Scratch
{
    private const string InMemory = "/dev/shm";

    private static readonly string File = Path.Combine(
        Directory.Exists(InMemory) ? InMemory : Path.GetTempPath(), $"clackbeat-fuzz-{Environment.ProcessId}");

    static Scratch() => AppDomain.CurrentDomain.ProcessExit += (_, _) => System.IO.File.Delete(File);

    /// <summary>Writes the bytes and names the file.</summary>
    public static string Of(ReadOnlySpan<byte> bytes)
    {
        System.IO.File.WriteAllBytes(File, bytes);
        return File;
    }
}
