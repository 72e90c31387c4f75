using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using Clackbeat.Signal.Beats;

namespace Clackbeat.Benchmarks.Whole;

/// <summary>
/// Beats of an hour at 1000 samples a second, found here and with SciPy, on the same samples already in memory. Both are judged by
/// processor time, one core each, each warm, turn and turn about, so that what else the machine does meets both: the least and the median of
/// all turns are told. Here it is the time of the whole process, its compiler and collector included; there of the process that computes.
/// </summary>
internal static class DetectionRace
{
    private const int Rounds = 5;
    private const int Turns = 7;

    // Until the runtime has compiled what is hot for good.
    private const int Warming = 30;

    public static void Run(string python, IEnumerable<RaceTrace> traces)
    {
        Console.WriteLine("Processor time [ms], least and median; SciPy with find_peaks by prominence and distance, and by prominence alone");
        Console.WriteLine("| trace | beats | Clackbeat | SciPy peaks | SciPy | ratio of leasts, of medians | by prominence alone | ratio |");
        Console.WriteLine("| --- | --- | --- | --- | --- | --- | --- | --- |");
        foreach (RaceTrace trace in traces)
        {
            string file = Path.Combine(Path.GetTempPath(), $"clackbeat-trace-{Environment.ProcessId}.f64");
            try
            {
                File.WriteAllBytes(file, MemoryMarshal.AsBytes<double>(trace.PressuresPa));
                Race(trace, python, file);
            }
            finally
            {
                File.Delete(file);
            }
        }
    }

    private static void Race(RaceTrace trace, string python, string file)
    {
        Turn(trace, Warming);
        (int beats, string peaks) = (0, "");
        (List<double> ours, List<double> both, List<double> alone) = ([], [], []);
        for (int round = 0; round < Rounds; round++)
        {
            (beats, double[] times) = Turn(trace, Turns);
            ours.AddRange(times);
            if (Theirs(python, file, 0.5 * trace.Scale.SupplyPa) is { } theirs)
            {
                peaks = theirs.Peaks;
                both.AddRange(theirs.Both);
                alone.AddRange(theirs.Alone);
            }
        }

        string row = string.Create(CultureInfo.InvariantCulture, $"| {trace.Name} | {beats} | {Told(ours)} |");
        Console.WriteLine(both.Count == 0 ? row : string.Create(
            CultureInfo.InvariantCulture,
            $"{row} {peaks} | {Told(both)} | {both.Min() / ours.Min():0.0}, {Median(both) / Median(ours):0.0} | {Told(alone)} | {alone.Min() / ours.Min():0.0}, {Median(alone) / Median(ours):0.0} |"));
    }

    private static string Told(List<double> times) => string.Create(CultureInfo.InvariantCulture, $"{1e3 * times.Min():0}, {1e3 * Median(times):0}");

    private static double Median(List<double> times) => times.Order().ElementAt(times.Count / 2);

    private static (int Beats, double[] S) Turn(RaceTrace trace, int turns)
    {
        int beats = 0;
        double[] times = new double[turns];
        for (int turn = 0; turn < turns; turn++)
        {
            beats = 0;
            double beganS = Environment.CpuUsage.TotalTime.TotalSeconds;
            var detector = new BeatDetector(trace.Scale, _ => beats++);
            for (int from = 0; from < trace.TimesS.Length; from += 1024)
            {
                int to = Math.Min(from + 1024, trace.TimesS.Length);
                detector.Add(trace.TimesS.AsSpan(from..to), trace.PressuresPa.AsSpan(from..to));
            }

            detector.Finish();
            times[turn] = Environment.CpuUsage.TotalTime.TotalSeconds - beganS;
        }

        return (beats, times);
    }

    private static (string Peaks, IEnumerable<double> Both, IEnumerable<double> Alone)? Theirs(string python, string file, double prominencePa)
    {
        string script = Path.Combine(AppContext.BaseDirectory, "Whole", "detect.py");
        var start = new ProcessStartInfo(python, [script, file, prominencePa.ToString(CultureInfo.InvariantCulture), Turns.ToString(CultureInfo.InvariantCulture)])
        {
            RedirectStandardOutput = true,
            Environment = { ["OMP_NUM_THREADS"] = "1", ["OPENBLAS_NUM_THREADS"] = "1" },
        };
        using Process process = Process.Start(start)!;
        string[] lines = process.StandardOutput.ReadToEnd().Split('\n');
        process.WaitForExit();
        if (process.ExitCode != 0 || lines.Length < 3)
        {
            Console.WriteLine($"{python} has no NumPy and SciPy, so nothing is compared; name one that has with --python.");
            return null;
        }

        return (lines[0], Numbers(lines[1]), Numbers(lines[2]));
    }

    private static IEnumerable<double> Numbers(string line) =>
        line.Split(' ').Select(word => double.Parse(word, CultureInfo.InvariantCulture));
}
