// Makes the packages: one file for each kind of computer that needs nothing installed, with licences and check sums.
//
//   dotnet run .ci/package.cs                        linux-x64, linux-arm64 and win-x64 into artifacts/package
//   dotnet run .ci/package.cs -- linux-x64           one of them
//   dotnet run .ci/package.cs -- --check linux-x64   tries the package made before, without making it again
//
// Each is tried where it can be: one for this computer as it is, linux-arm64 under qemu-aarch64-static with Debian's
// libc6, libstdc++6 and libssl3 of arm64 (dpkg --add-architecture arm64). What could not be tried is said. Ends with 0 when all that was
// made, and tried, works.
using System.Diagnostics;
using System.Formats.Tar;
using System.IO.Compression;
using System.Runtime.InteropServices;
using System.Security.Cryptography;

const string Program = "clackbeat";
string[] all = ["linux-x64", "linux-arm64", "win-x64"];
bool checkOnly = args.Contains("--check");
string[] wanted = [.. args.Where(a => !a.StartsWith('-'))];
if (wanted.Except(all).FirstOrDefault() is { } unknown)
{
    Console.Error.WriteLine($"There is no package for {unknown}; there are {string.Join(", ", all)}.");
    return 2;
}

string root = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(PathOfThis())!, ".."));
string artifacts = Path.Combine(root, "artifacts", "package");
Directory.CreateDirectory(artifacts);
string notices = Path.Combine(artifacts, "THIRD-PARTY-NOTICES.txt");
if (!checkOnly && Run("dotnet", ["run", Path.Combine(root, ".ci", "audit.cs"), "--", "--notices", notices]) != 0)
{
    Console.Error.WriteLine("No package is made while the audit above fails.");
    return 1;
}

bool works = true;
foreach (string rid in wanted.Length > 0 ? wanted : all)
{
    works &= (checkOnly || Make(rid)) && Check(rid);
}

WriteSums();
return works ? 0 : 1;

bool Make(string rid)
{
    string folder = FolderOf(rid);
    string build = Path.Combine(artifacts, $"build-{rid}");
    foreach (string old in new[] { folder, build }.Where(Directory.Exists))
    {
        Directory.Delete(old, recursive: true);
    }

    if (Run("dotnet", ["publish", Path.Combine(root, "host", "Clackbeat"), "-c", "Release", "-r", rid, "-p:ClackbeatPackage=true", "-o", build, "-v", "q", "-nologo"]) != 0)
    {
        Console.Error.WriteLine($"{rid}: could not be built.");
        return false;
    }

    Directory.CreateDirectory(folder);
    File.Copy(Path.Combine(build, rid.StartsWith("win", StringComparison.Ordinal) ? "Clackbeat.exe" : "Clackbeat"), ProgramOf(rid));
    File.Copy(Path.Combine(root, "LICENSE"), Path.Combine(folder, "LICENSE"));
    File.Copy(Path.Combine(root, "README.md"), Path.Combine(folder, "README.md"));
    File.Copy(notices, Path.Combine(folder, Path.GetFileName(notices)));
    Directory.Delete(build, recursive: true);
    if (!OperatingSystem.IsWindows())
    {
        File.SetUnixFileMode(ProgramOf(rid), (UnixFileMode)0b111_101_101);
    }

    Pack(rid);
    Console.WriteLine($"{rid}: {ArchiveOf(rid)}, {new FileInfo(ArchiveOf(rid)).Length / 1e6:0.0} MB");
    return true;
}

void Pack(string rid)
{
    File.Delete(ArchiveOf(rid));
    if (rid.StartsWith("win", StringComparison.Ordinal))
    {
        ZipFile.CreateFromDirectory(FolderOf(rid), ArchiveOf(rid), CompressionLevel.SmallestSize, includeBaseDirectory: true);
        return;
    }

    using FileStream file = File.Create(ArchiveOf(rid));
    using GZipStream packed = new(file, CompressionLevel.SmallestSize);
    TarFile.CreateFromDirectory(FolderOf(rid), packed, includeBaseDirectory: true);
}

// Says in one line a package what ran; each step is the program as a user starts it, in an empty folder.
bool Check(string rid)
{
    string[]? start = StartOf(rid);
    if (start is null)
    {
        Console.WriteLine($"{rid}: not tried, this computer can't run it.");
        return true;
    }

    string place = Directory.CreateTempSubdirectory("clackbeat-package-").FullName;
    if (start.Length > 1 && OperatingSystem.IsLinux())
    {
        BeGentle();
    }

    try
    {
        string[][] steps =
        [
            ["--version"],
            ["site", "new", "ram.toml"],
            ["simulate", "--site", "ram.toml", "--out", "trace.csv"],
            ["report", "trace.csv", "--site", "ram.toml", "--out", "report.html"],
            ["report", "trace.csv", "--site", "ram.toml", "--out", "report.pdf"],
            ["trend", "--demo", "--out", "trend"],
            ["ports"],
            ["demo", "--out", "demo"],
        ];
        foreach (string[] step in steps)
        {
            if (Run(start[0], [.. start[1..], .. step], place, quiet: true) is not 0 and var code)
            {
                Console.Error.WriteLine($"{rid}: {Program} {string.Join(' ', step)} ended with {code}.");
                return false;
            }
        }

        bool served = Serves(start, place);
        Console.WriteLine(served ? $"{rid}: tried, all {steps.Length} commands work and the page is served." : $"{rid}: the live page is not served.");
        return served;
    }
    finally
    {
        Directory.Delete(place, recursive: true);
    }
}

// The emulator is no computer that the runtime supports: with threads on several processors, code pages mapped twice and a
// collector of its own thread, one run in two died of it or hung (qemu 7.2), each time elsewhere; so, eight of eight ran through.
[System.Runtime.Versioning.SupportedOSPlatform("linux")]
static void BeGentle()
{
    using var self = Process.GetCurrentProcess();
    self.ProcessorAffinity = 1;
    Environment.SetEnvironmentVariable("DOTNET_EnableWriteXorExecute", "0");
    Environment.SetEnvironmentVariable("DOTNET_gcConcurrent", "0");
}

bool Serves(string[] start, string place)
{
    int port = 20_000 + Random.Shared.Next(20_000);
    ProcessStartInfo info = new(start[0], [.. start[1..], "watch", "virtual", "--site", "ram.toml", "--http", $"{port}"])
    {
        WorkingDirectory = place,
        RedirectStandardOutput = true,
        RedirectStandardError = true,
    };
    using Process program = Process.Start(info)!;
    try
    {
        using HttpClient page = new() { Timeout = TimeSpan.FromSeconds(10) };
        for (var clock = Stopwatch.StartNew(); clock.Elapsed < TimeSpan.FromMinutes(1) && !program.HasExited; Thread.Sleep(500))
        {
            try
            {
                return page.GetStringAsync($"http://127.0.0.1:{port}/").Result.Contains("<html", StringComparison.OrdinalIgnoreCase);
            }
            catch (AggregateException)
            {
                // Not up yet.
            }
        }

        return false;
    }
    finally
    {
        program.Kill(entireProcessTree: true);
    }
}

string[]? StartOf(string rid)
{
    if (rid == RuntimeInformation.RuntimeIdentifier || (rid == "linux-x64" && OperatingSystem.IsLinux() && RuntimeInformation.OSArchitecture == Architecture.X64))
    {
        return [ProgramOf(rid)];
    }

    const string Emulator = "/usr/bin/qemu-aarch64-static";
    const string Libraries = "/usr/lib/aarch64-linux-gnu";
    return rid == "linux-arm64" && File.Exists(Emulator) && File.Exists($"{Libraries}/libstdc++.so.6") && File.Exists($"{Libraries}/libssl.so.3")
        ? [Emulator, ProgramOf(rid)]
        : null;
}

// The form that sha256sum -c reads.
void WriteSums() => File.WriteAllLines(
    Path.Combine(artifacts, "SHA256SUMS"),
    all.Select(ArchiveOf).Where(File.Exists).Select(f => $"{Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(f)))}  {Path.GetFileName(f)}"));

string FolderOf(string rid) => Path.Combine(artifacts, $"{Program}-{rid}");

string ProgramOf(string rid) => Path.Combine(FolderOf(rid), rid.StartsWith("win", StringComparison.Ordinal) ? $"{Program}.exe" : Program);

string ArchiveOf(string rid) => FolderOf(rid) + (rid.StartsWith("win", StringComparison.Ordinal) ? ".zip" : ".tar.gz");

static int Run(string program, IEnumerable<string> words, string? place = null, bool quiet = false)
{
    ProcessStartInfo info = new(program, words) { WorkingDirectory = place ?? "", RedirectStandardOutput = quiet, RedirectStandardError = quiet };
    using Process process = Process.Start(info)!;
    if (quiet)
    {
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        string error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        _ = output.Result;
        if (process.ExitCode != 0)
        {
            Console.Error.Write(error);
        }
    }

    process.WaitForExit();
    return process.ExitCode;
}

static string PathOfThis([System.Runtime.CompilerServices.CallerFilePath] string path = "") => path;
