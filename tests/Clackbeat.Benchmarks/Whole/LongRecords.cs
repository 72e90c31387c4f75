using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Clackbeat.Benchmarks.Whole;

/// <summary>
/// The program itself over traces of many hours: time by the clock, processor time, and the most memory it held. The trace is one
/// virtual hour laid end to end, since only its length matters here. It needs some 70 MB of disk for each hour.
/// </summary>
internal static class LongRecords
{
    public static void Run(int[] hours)
    {
        string folder = Directory.CreateTempSubdirectory("clackbeat-long-").FullName;
        try
        {
            string site = Path.Combine(folder, "ram.toml");
            Process.Start(Program("site", "new", site))!.WaitForExit();
            Console.WriteLine("Simulating an hour ...");
            (double[] timesS, double[] pressuresPa) = Bench.Trace(3600);
            Console.WriteLine("| record | samples | plain read | analysis by the clock | processor time | most memory |");
            Console.WriteLine("| --- | --- | --- | --- | --- | --- |");
            foreach (int length in hours)
            {
                string file = Path.Combine(folder, $"{length}h.csv");
                Write(file, timesS, pressuresPa, length);
                double readS = PlainRead(file);
                (double wallS, double processorS, double peakMb) = Analyse(file, site);
                Console.WriteLine(string.Create(
                    CultureInfo.InvariantCulture,
                    $"| {length} h | {(long)length * timesS.Length:N0} | {readS:0.0} s | {wallS:0.0} s | {processorS:0.0} s | {peakMb:0} MB |"));
                File.Delete(file);
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Write(string file, double[] timesS, double[] pressuresPa, int hours)
    {
        double hourS = timesS[^1] - timesS[0] + 0.001;
        using var writer = new StreamWriter(file, append: false, Encoding.ASCII, 1 << 20);
        writer.Write("t_s,p_kPa\n");
        Span<char> line = stackalloc char[64];
        for (int hour = 0; hour < hours; hour++)
        {
            for (int i = 0; i < timesS.Length; i++)
            {
                line.TryWrite(CultureInfo.InvariantCulture, $"{timesS[i] + (hour * hourS):0.000000},{1e-3 * pressuresPa[i]:0.000}\n", out int length);
                writer.Write(line[..length]);
            }
        }
    }

    // The second time, so that the file lies in the system's memory as it does for the analysis.
    private static double PlainRead(string file)
    {
        byte[] buffer = new byte[1 << 20];
        double lastS = 0;
        for (int turn = 0; turn < 2; turn++)
        {
            var clock = Stopwatch.StartNew();
            using FileStream stream = File.OpenRead(file);
            while (stream.Read(buffer) > 0)
            {
            }

            lastS = clock.Elapsed.TotalSeconds;
        }

        return lastS;
    }

    private static (double WallS, double ProcessorS, double PeakMb) Analyse(string file, string site)
    {
        ProcessStartInfo start = Program("analyse", file, "--site", site, "--json");
        start.RedirectStandardOutput = true;
        var clock = Stopwatch.StartNew();
        using Process process = Process.Start(start)!;
        Task<string> told = process.StandardOutput.ReadToEndAsync();
        (double processorS, long peak) = (0, 0);
        while (!process.WaitForExit(50))
        {
            process.Refresh();
            try
            {
                // A process that has just ended still tells its time, but its memory as nothing.
                (processorS, peak) = (process.TotalProcessorTime.TotalSeconds, Math.Max(peak, process.PeakWorkingSet64));
            }
            catch (InvalidOperationException)
            {
                // It ended in between; what was last seen is good to a twentieth of a second.
            }
        }

        double wallS = clock.Elapsed.TotalSeconds;
        if (process.ExitCode is not (0 or 3) || told.Result.Length == 0)
        {
            throw new InvalidOperationException($"the analysis of {file} ended with {process.ExitCode}");
        }

        return (wallS, processorS, peak / 1e6);
    }

    /// <summary>The program that was built beside this one.</summary>
    public static string ProgramPath
    {
        get
        {
            string here = AppContext.BaseDirectory;
            int tests = here.LastIndexOf($"{Path.DirectorySeparatorChar}tests{Path.DirectorySeparatorChar}", StringComparison.Ordinal);
            return Path.Combine(here[..tests], "host", "Clackbeat", "bin", "Release", "net10.0", OperatingSystem.IsWindows() ? "clackbeat.exe" : "clackbeat");
        }
    }

    private static ProcessStartInfo Program(params string[] arguments) => new(ProgramPath, arguments) { RedirectStandardError = true };
}
