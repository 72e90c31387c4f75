using System.Diagnostics;
using System.Globalization;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Tests.Bench;

namespace Clackbeat.Unattended.Tests.Crash;

/// <summary>
/// This test assembly run as a program under strace(1): the log on the bench, its real files and its real database, with every
/// call to the system that changes a file or brings it to the disk.
/// </summary>
internal static class TracedLog
{
    private const string Calls = "openat,creat,write,pwrite64,writev,pwritev,pwritev2,ftruncate,fallocate,fsync,fdatasync,rename,renameat,renameat2,link,linkat,unlink,unlinkat,mkdir,mkdirat,rmdir";
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(4);

    public static int Main(string[] args)
    {
        if (args is [KilledWatch.Word, string watched, string store])
        {
            return KilledWatch.Run(watched, store);
        }

        if (args is not [string folder, string bursts])
        {
            return 2;
        }

        using var bench = new LogBench(folder);
        bench.Plug("/bench/ttyUSB0");
        LogSettings settings = bench.Settings(LogBench.RamOn("/bench/ttyUSB0"));
        TimeSpan half = int.Parse(bursts, CultureInfo.InvariantCulture) * settings.Every / 2;

        // Ended in between, so that the database is closed and opened, and the second start takes up what the first left; over
        // midnight, so that a day's folder is made while others are there; with little room, so that bursts are removed.
        bench.Run(settings with { Disk = new DiskSettings { MostBytes = 30_000, BaselineDays = 0, LeastFreeBytes = 1 } }, half);
        bench.Clock.Set(TimeSpan.FromHours(23));
        bench.Run(settings, half);
        return 0;
    }

    /// <summary>True when strace is here and may trace.</summary>
    public static bool IsPossible()
    {
        if (!OperatingSystem.IsLinux())
        {
            return false;
        }

        try
        {
            using Process trial = Process.Start(new ProcessStartInfo("strace", ["-f", "--seccomp-bpf", "-o", "/dev/null", "-e", "trace=fsync", "true"]) { RedirectStandardError = true })!;
            trial.StandardError.ReadToEnd();
            trial.WaitForExit();
            return trial.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }

    /// <summary>Runs it and returns what it did to the files below a folder, in order.</summary>
    public static IReadOnlyList<FileCall> Run(string folder, string trace, int bursts)
    {
        string host = Environment.ProcessPath!.EndsWith("dotnet", StringComparison.Ordinal) ? Environment.ProcessPath : "dotnet";
        string[] arguments =
        [
            "-f", "--seccomp-bpf", "-y", "-xx", "-s", "2000000", "-o", trace, "-e", "trace=" + Calls,
            host, typeof(TracedLog).Assembly.Location, folder, bursts.ToString(CultureInfo.InvariantCulture),
        ];
        using Process log = Process.Start(new ProcessStartInfo("strace", arguments) { RedirectStandardError = true })!;
        Task<string> words = log.StandardError.ReadToEndAsync();
        if (!log.WaitForExit(Patience))
        {
            log.Kill(entireProcessTree: true);
            throw new TimeoutException("the traced log doesn't end");
        }

        Assert.True(log.ExitCode == 0, words.Result);
        return FileCall.Parse(File.ReadLines(trace), folder);
    }
}
