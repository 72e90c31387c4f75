using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using Clackbeat.Signal.Beats;

namespace Clackbeat.Benchmarks.Whole;

/// <summary>
/// Beats of an hour at 1000 samples a second, found here and with SciPy, in turn, on the same samples already in memory. Both are
/// judged by processor time, one thread each, the best of several runs.
/// </summary>
internal static class DetectionRace
{
    private const int Rounds = 3;

    // Until the runtime has compiled what is hot for good.
    private const int Warming = 20;

    public static void Run(string python)
    {
        Console.WriteLine("Simulating an hour ...");
        (double[] timesS, double[] pressuresPa) = Bench.Trace(3600);
        string file = Path.Combine(Path.GetTempPath(), $"clackbeat-trace-{Environment.ProcessId}.f64");
        try
        {
            File.WriteAllBytes(file, MemoryMarshal.AsBytes<double>(pressuresPa).ToArray());
            Console.WriteLine($"{pressuresPa.Length} samples; processor time, best of five, in each of {Rounds} rounds:");
            for (int round = 0; round < Rounds; round++)
            {
                (int beats, double oursS) = Ours(timesS, pressuresPa);
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  Clackbeat {beats} beats, {1e3 * oursS:0} ms ({1e9 * oursS / pressuresPa.Length:0.0} ns a sample)"));
                if (Theirs(python, file) is { } theirs)
                {
                    Console.WriteLine(string.Create(
                        CultureInfo.InvariantCulture,
                        $"  SciPy {theirs.Version} {theirs.Peaks} peaks, {1e3 * theirs.S:0} ms: {theirs.S / oursS:0.0} times as long"));
                }
            }

            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  reading the file alone: {1e3 * Read(file):0} ms"));
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static (int Beats, double S) Ours(double[] timesS, double[] pressuresPa)
    {
        (int beats, double bestS) = (0, double.PositiveInfinity);
        for (int run = 0; run < Warming + 5; run++)
        {
            beats = 0;
            double beganS = Processor();
            var detector = new BeatDetector(Bench.Scale, _ => beats++);
            for (int from = 0; from < timesS.Length; from += 1024)
            {
                int to = Math.Min(from + 1024, timesS.Length);
                detector.Add(timesS.AsSpan(from..to), pressuresPa.AsSpan(from..to));
            }

            detector.Finish();
            bestS = run < Warming ? bestS : Math.Min(bestS, Processor() - beganS);
        }

        return (beats, bestS);
    }

    // Of the whole process, the compiler's and the collector's threads included.
    private static double Processor()
    {
        using Process self = Process.GetCurrentProcess();
        return self.TotalProcessorTime.TotalSeconds;
    }

    private static (int Peaks, string Version, double S)? Theirs(string python, string file)
    {
        var start = new ProcessStartInfo(
            python, [Path.Combine(AppContext.BaseDirectory, "Whole", "detect.py"), file, (0.5 * Bench.Scale.SupplyPa).ToString(CultureInfo.InvariantCulture)])
        {
            RedirectStandardOutput = true,
            Environment = { ["OMP_NUM_THREADS"] = "1", ["OPENBLAS_NUM_THREADS"] = "1" },
        };
        using Process process = Process.Start(start)!;
        string[] words = process.StandardOutput.ReadToEnd().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        process.WaitForExit();
        if (process.ExitCode != 0 || words.Length != 3)
        {
            Console.WriteLine($"  {python} has no NumPy and SciPy, so nothing is compared; name one that has with --python.");
            return null;
        }

        return (int.Parse(words[0], CultureInfo.InvariantCulture), words[1], double.Parse(words[2], CultureInfo.InvariantCulture));
    }

    private static double Read(string file)
    {
        var clock = Stopwatch.StartNew();
        File.ReadAllBytes(file);
        return clock.Elapsed.TotalSeconds;
    }
}
