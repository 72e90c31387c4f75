namespace Clackbeat.Fuzz;

/// <summary>Something of the program that takes bytes from outside.</summary>
/// <param name="Name">What the command line calls it.</param>
/// <param name="Run">Gives it an input: it returns, or throws anything but InputException where it is broken.</param>
/// <param name="LongestBytes">Inputs are cut to this length.</param>
/// <param name="ShortExecutions">Executions in the normal tests: about a second's worth.</param>
internal sealed record Target(string Name, Action<byte[]> Run, int LongestBytes, int ShortExecutions)
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<Target> All { get; } =
    [
        new("frames", FrameTarget.Run, 4096, 20_000),
        new("recording", RecordingTarget.Run, 8192, 3000),
        new("csv", CsvTarget.Run, 8192, 10_000),
        new("site", SiteTarget.Run, 14_000, 1000),
        new("sheet", ZipTarget.RunSheet, 8192, 1000),
        new("share", ZipTarget.RunShared, 8192, 1000),
        new("packet", PacketTarget.Run, 8192, 5000),
        new("settings", ConfigTarget.RunSettings, 8192, 1000),
        new("wish", ConfigTarget.RunWish, 4096, 3000),
        new("session", SessionTarget.Run, 4096, 1500),
        new("twin", TwinTarget.Run, 8192, 500),
    ];

    /// <summary>The one of a name.</summary>
    public static Target Of(string name) => All.FirstOrDefault(t => t.Name == name)
        ?? throw new ArgumentException($"There is no target '{name}'; there are {string.Join(", ", All.Select(t => t.Name))}.");
}

/// <summary>An input on which the program broke a promise though it threw nothing.</summary>
internal sealed class BrokenPromiseException(string message) : Exception(message)
{
    /// <summary>Throws where a promise isn't kept.</summary>
    public static void Unless(bool kept, string promise)
    {
        if (!kept)
        {
            throw new BrokenPromiseException(promise);
        }
    }
}
