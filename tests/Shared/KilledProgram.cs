using System.Diagnostics;
using System.Globalization;
using System.Reflection;

namespace Clackbeat.Testing;

/// <summary>
/// A test assembly run as a program that says "open", then a number after each thing that it has written, until it is killed: kill -9 at
/// an instant that the test draws.
/// </summary>
internal static class KilledProgram
{
    /// <summary>Kills of a test.</summary>
    public static int Kills { get; } = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 200 : 3;

    /// <summary>Runs it and kills it.</summary>
    /// <param name="program">The assembly.</param>
    /// <param name="arguments">Its arguments.</param>
    /// <param name="afterMs">When to kill it, after it has said "open" or its first number.</param>
    /// <param name="afterFirst">Count from the first number, so that a slow machine gets to write once.</param>
    /// <returns>The last number that it said; 0 for none.</returns>
    public static int RunAndKill(Assembly program, IReadOnlyList<string> arguments, int afterMs, bool afterFirst)
    {
        string host = Environment.ProcessPath!.EndsWith("dotnet", StringComparison.Ordinal) ? Environment.ProcessPath : "dotnet";
        using Process process = Process.Start(
            new ProcessStartInfo(host, [program.Location, .. arguments]) { RedirectStandardOutput = true })!;
        Assert.Equal("open", process.StandardOutput.ReadLine());
        string? first = afterFirst ? process.StandardOutput.ReadLine() : null;
        Thread.Sleep(afterMs);
        process.Kill();

        // The last line may be cut.
        string all = $"{first}\n{process.StandardOutput.ReadToEnd()}";
        process.WaitForExit();
        string[] said = all[..(all.LastIndexOf('\n') + 1)].Split('\n', StringSplitOptions.RemoveEmptyEntries);
        return said.Length == 0 ? 0 : int.Parse(said[^1], CultureInfo.InvariantCulture);
    }

    /// <summary>In the killed program: tells that something is written.</summary>
    public static void Say(int number)
    {
        Console.Out.WriteLine(number);
        Console.Out.Flush();
    }
}
