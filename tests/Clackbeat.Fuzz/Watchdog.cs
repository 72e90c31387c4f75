using System.Diagnostics;

namespace Clackbeat.Fuzz;

/// <summary>Runs one input and holds the program to its limits of time and memory.</summary>
internal static class Watchdog
{
    // Inputs are at most some kilobytes: one that takes seconds of processor time is a hang in the making, and one that
    // allocates this much took a length at its word.
    private static readonly TimeSpan LongestRun = TimeSpan.FromSeconds(3);
    private const long MostAllocatedBytes = 64 << 20;

    /// <summary>Runs an input; throws where the target breaks.</summary>
    public static void Run(Target target, byte[] input)
    {
        long before = GC.GetAllocatedBytesForCurrentThread();
        long start = Stopwatch.GetTimestamp();
        TimeSpan processor = Environment.CpuUsage.TotalTime;
        target.Run(input);
        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        BrokenPromiseException.Unless(allocated <= MostAllocatedBytes, $"{allocated} bytes were allocated for {input.Length}");

        // Other programs can make the wall's clock run on; the processor's own decides.
        if (Stopwatch.GetElapsedTime(start) > LongestRun)
        {
            TimeSpan used = Environment.CpuUsage.TotalTime - processor;
            BrokenPromiseException.Unless(used <= LongestRun, $"{used.TotalSeconds:0.0} s of processor time for {input.Length} bytes");
        }
    }
}
