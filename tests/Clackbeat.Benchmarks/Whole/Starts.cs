using System.Diagnostics;
using System.Globalization;

namespace Clackbeat.Benchmarks.Whole;

/// <summary>
/// The program as a keeper starts it, on a minute of a virtual ram: time by the clock until it has told all, processor time and most
/// memory; for the live page the time until its first data. Median and least of several starts, since other programs disturb.
/// </summary>
internal static class Starts
{
    private const int Runs = 7;
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);
    private static readonly TimeSpan Watched = TimeSpan.FromSeconds(15);

    /// <summary>Times the starts.</summary>
    /// <param name="program">The executable to time.</param>
    public static void Run(string program)
    {
        string folder = Directory.CreateTempSubdirectory("clackbeat-starts-").FullName;
        try
        {
            Once(program, folder, ["site", "new", "ram.toml"]);
            Once(program, folder, ["simulate", "--site", "ram.toml", "--out", "minute.csv"]);
            Console.WriteLine("| command | by the clock, median, least | processor time, median | most memory |");
            Console.WriteLine("| --- | --- | --- | --- |");
            Row("--version", program, folder, ["--version"]);
            Row("analyse", program, folder, ["analyse", "minute.csv", "--site", "ram.toml"]);
            Row("report", program, folder, ["report", "minute.csv", "--site", "ram.toml", "--out", "report.html", "--overwrite"]);
            Page(program, folder);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Row(string name, string program, string folder, string[] words)
    {
        Once(program, folder, words);
        (double WallS, double ProcessorS, double PeakMb)[] runs = [.. Enumerable.Range(0, Runs).Select(_ => Once(program, folder, words))];
        Write(name, [.. runs.Select(r => r.WallS)], Median(runs.Select(r => r.ProcessorS)), runs.Max(r => r.PeakMb));
    }

    private static void Page(string program, string folder)
    {
        (double WallS, double PeakMb)[] runs = [.. Enumerable.Range(0, Runs).Select(i => FirstPicture(program, folder, i == Runs - 1))];
        Write("watch: first data on the page", [.. runs.Select(r => r.WallS)], null, runs.Max(r => r.PeakMb));
    }

    private static void Write(string name, double[] wallS, double? processorS, double peakMb) => Console.WriteLine(string.Create(
        CultureInfo.InvariantCulture,
        $"| {name} | {Median(wallS):0.00} s, {wallS.Min():0.00} s | {(processorS is { } s ? $"{s:0.00} s" : "")} | {peakMb:0} MB |"));

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }

    private static (double WallS, double ProcessorS, double PeakMb) Once(string program, string folder, string[] words)
    {
        var clock = Stopwatch.StartNew();
        using Process process = Start(program, folder, words);
        Task<string> told = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        (double processorS, double peak) = (0, 0);
        while (!process.WaitForExit(5))
        {
            // A process that has ended tells neither; what was last seen is good to some milliseconds.
            (double seenS, double seenMb) = Seen(process);
            (processorS, peak) = (Math.Max(processorS, seenS), Math.Max(peak, seenMb));
        }

        double wallS = clock.Elapsed.TotalSeconds;
        return process.ExitCode == 0 && told.Result.Length + error.Result.Length > 0
            ? (wallS, processorS, peak)
            : throw new InvalidOperationException($"{string.Join(' ', words)} ended with {process.ExitCode}: {error.Result}");
    }

    // The page's data come as server-sent events; the first line of them is what a browser draws first.
    private static (double WallS, double PeakMb) FirstPicture(string program, string folder, bool goOn)
    {
        int port = 20_000 + Random.Shared.Next(20_000);
        var clock = Stopwatch.StartNew();
        using Process process = Start(program, folder, ["watch", "virtual", "--site", "ram.toml", "--http", $"{port}"]);
        process.OutputDataReceived += (_, _) => { };
        process.ErrorDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        try
        {
            using var client = new HttpClient();
            while (clock.Elapsed < Patience && !process.HasExited)
            {
                try
                {
                    using Stream stream = client.GetStreamAsync(new Uri($"http://127.0.0.1:{port}/live")).Result;
                    using var reader = new StreamReader(stream);
                    while (reader.ReadLine() is { } line && !line.StartsWith("data:", StringComparison.Ordinal))
                    {
                    }

                    double wallS = clock.Elapsed.TotalSeconds;
                    if (goOn)
                    {
                        Thread.Sleep(Watched);
                    }

                    return (wallS, Seen(process).PeakMb);
                }
                catch (AggregateException)
                {
                    Thread.Sleep(5);
                }
            }

            throw new InvalidOperationException("The live page was not served.");
        }
        finally
        {
            process.Kill(entireProcessTree: true);
            process.WaitForExit();
        }
    }

    private static (double ProcessorS, double PeakMb) Seen(Process process)
    {
        try
        {
            process.Refresh();
            return (process.TotalProcessorTime.TotalSeconds, process.PeakWorkingSet64 / 1e6);
        }
        catch (InvalidOperationException)
        {
            return (0, 0);
        }
    }

    private static Process Start(string program, string folder, string[] words) => Process.Start(new ProcessStartInfo(program, words)
    {
        WorkingDirectory = folder,
        RedirectStandardOutput = true,
        RedirectStandardError = true,
    })!;
}
