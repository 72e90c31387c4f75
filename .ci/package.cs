// Makes the packages into artifacts/package: the tool for computers with the .NET SDK, and for each kind of computer an archive
// with one file that needs nothing installed. Licences, a list of what is inside (SBOM, CycloneDX 1.6 JSON) and check sums go along.
//
//   dotnet run .ci/package.cs                        the tool and all archives
//   dotnet run .ci/package.cs -- tool                the tool alone
//   dotnet run .ci/package.cs -- --audited tool      the same with the notices of an audit that has just run: CI does this
//   dotnet run .ci/package.cs -- linux-x64           one of the archives
//   dotnet run .ci/package.cs -- --check linux-x64   tries the package made before, without making it again
//
// Each is tried where it can be, in an empty folder with an empty home and no package registry: the tool and the archive for this
// computer as they are, linux-arm64 under qemu-aarch64-static with Debian's libc6, libstdc++6 and libssl3 of arm64
// (dpkg --add-architecture arm64). What could not be tried is said. Ends with 0 when all that was made, and tried, works;
// with 3 when the program that lists the contents is not to be had here, so that nothing could be made.
//
// CLACKBEAT_SIGN_CERTIFICATE names a certificate (.pfx) to sign with, CLACKBEAT_SIGN_PASSWORD its password, and
// CLACKBEAT_SIGN_TIMESTAMPER a server of time stamps. Without the first nothing is signed.
#:property PublishAot=false
using System.Diagnostics;
using System.Formats.Tar;
using System.IO.Compression;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json.Nodes;
using System.Xml.Linq;

const string Program = "clackbeat";
const string Tool = "tool";
const string Sums = "SHA256SUMS";
const int NoList = 3;
string[] all = [Tool, "linux-x64", "linux-arm64", "win-x64", "osx-arm64"];
bool checkOnly = args.Contains("--check");
string[] wanted = [.. args.Where(a => !a.StartsWith('-'))];
if (wanted.Except(all).FirstOrDefault() is { } unknown)
{
    Console.Error.WriteLine($"There is no package for {unknown}; there are {string.Join(", ", all)}.");
    return 2;
}

// Each step may use what those before it made.
string[][] stepsOfTool =
[
    ["--version"],
    ["licences"],
    ["site", "new", "ram.toml"],
    ["simulate", "--site", "ram.toml", "--out", "trace.csv"],
    ["analyse", "trace.csv", "--site", "ram.toml"],
];
string[][] stepsOfArchive =
[
    .. stepsOfTool,
    ["report", "trace.csv", "--site", "ram.toml", "--out", "report.html"],
    ["report", "trace.csv", "--site", "ram.toml", "--out", "report.pdf"],
    ["trend", "--demo", "--out", "trend"],
    ["ports"],
    ["demo", "--out", "demo"],
];

string root = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(PathOfThis())!, ".."));
string artifacts = Path.Combine(root, "artifacts", "package");
string papers = Path.Combine(root, "artifacts", "papers");
string notices = Path.Combine(papers, "THIRD-PARTY-NOTICES.txt");
string contents = Path.Combine(papers, "sbom.cdx.json");
Directory.CreateDirectory(artifacts);
if (!checkOnly && WritePapers() is not 0 and var refused)
{
    return refused;
}

bool works = true;
foreach (string kind in wanted.Length > 0 ? wanted : all)
{
    works &= (checkOnly || (kind == Tool ? MakeTool() : Make(kind))) && Check(kind);
}

WriteSums();
return works ? 0 : 1;

// What travels with every package: licences and notices, and the list of the libraries inside.
int WritePapers()
{
    Directory.CreateDirectory(papers);
    if (!args.Contains("--audited") && Run("dotnet", ["run", Path.Combine(root, ".ci", "audit.cs"), "--", "--notices", notices]) != 0)
    {
        Console.Error.WriteLine("No package is made while the audit above fails.");
        return 1;
    }

    string project = Path.Combine(root, "host", "Clackbeat", "Clackbeat.csproj");
    string[] list = ["tool", "exec", "--yes", "cyclonedx", "--", project, "--output", papers, "--filename", Path.GetFileName(contents),
        "--output-format", "Json", "--disable-package-restore", "--no-serial-number", "--spec-version", "1.6", "--set-name", Program, "--set-version", Version()];
    if (Run("dotnet", list, root, quiet: true) != 0)
    {
        Console.Error.WriteLine("The list of what is inside could not be made: cyclonedx of .config/dotnet-tools.json did not run.");
        return NoList;
    }

    // The same sources give the same list: the moment of its making says nothing of them.
    JsonNode sbom = JsonNode.Parse(File.ReadAllText(contents))!;
    sbom["metadata"]!.AsObject().Remove("timestamp");
    File.WriteAllText(contents, sbom.ToJsonString(new() { WriteIndented = true }) + "\n");
    return 0;
}

bool MakeTool()
{
    foreach (string old in Directory.EnumerateFiles(artifacts, "*.nupkg"))
    {
        File.Delete(old);
    }

    if (Run("dotnet", ["pack", Path.Combine(root, "host", "Clackbeat"), "-c", "Release", $"-p:ClackbeatPapers={papers}", "-o", artifacts, "-v", "q", "-nologo"]) != 0)
    {
        Console.Error.WriteLine("The tool could not be built.");
        return false;
    }

    string made = ToolPackage();
    if (Environment.GetEnvironmentVariable("CLACKBEAT_SIGN_CERTIFICATE") is { Length: > 0 } certificate && !SignTool(made, certificate))
    {
        Console.Error.WriteLine("The tool could not be signed.");
        return false;
    }

    Console.WriteLine($"{Tool}: {made}, {new FileInfo(made).Length / 1e6:0.0} MB");
    return true;
}

bool SignTool(string package, string certificate)
{
    List<string> words = ["nuget", "sign", package, "--certificate-path", certificate, "--overwrite"];
    if (Environment.GetEnvironmentVariable("CLACKBEAT_SIGN_PASSWORD") is { Length: > 0 } password)
    {
        words.AddRange(["--certificate-password", password]);
    }

    if (Environment.GetEnvironmentVariable("CLACKBEAT_SIGN_TIMESTAMPER") is { Length: > 0 } timestamper)
    {
        words.AddRange(["--timestamper", timestamper]);
    }

    return Run("dotnet", words) == 0;
}

bool Make(string rid)
{
    string folder = FolderOf(rid);
    string build = Path.Combine(artifacts, $"build-{rid}");
    foreach (string old in new[] { folder, build }.Where(Directory.Exists))
    {
        Directory.Delete(old, recursive: true);
    }

    File.Delete(ArchiveOf(rid));
    if (Run("dotnet", ["publish", Path.Combine(root, "host", "Clackbeat"), "-c", "Release", $"-p:ClackbeatFor={rid}", "-o", build, "-v", "q", "-nologo"]) != 0)
    {
        Console.Error.WriteLine($"{rid}: could not be built. If the message above names a package that was not found, the registry here does not serve the runtime of {rid}.");
        return false;
    }

    Directory.CreateDirectory(folder);
    File.Copy(Path.Combine(build, rid.StartsWith("win", StringComparison.Ordinal) ? "Clackbeat.exe" : "Clackbeat"), ProgramOf(rid));
    foreach (string paper in new[] { Path.Combine(root, "LICENSE"), Path.Combine(root, "README.md"), Path.Combine(root, "docs", "install.md"), notices })
    {
        File.Copy(paper, Path.Combine(folder, Path.GetFileName(paper)));
    }

    File.WriteAllText(Path.Combine(folder, Path.GetFileName(contents)), WithRuntime(rid));
    Directory.Delete(build, recursive: true);
    if (!OperatingSystem.IsWindows())
    {
        File.SetUnixFileMode(ProgramOf(rid), (UnixFileMode)0b111_101_101);
    }

    Pack(rid);
    Console.WriteLine($"{rid}: {ArchiveOf(rid)}, {new FileInfo(ArchiveOf(rid)).Length / 1e6:0.0} MB");
    return true;
}

// An archive holds the runtime too, which is no package of the project: it has the version that this SDK brings.
string WithRuntime(string rid)
{
    JsonNode sbom = JsonNode.Parse(File.ReadAllText(contents))!;
    foreach (string name in new[] { $"Microsoft.NETCore.App.Runtime.{rid}", $"Microsoft.AspNetCore.App.Runtime.{rid}" })
    {
        string address = $"pkg:nuget/{name}@{Environment.Version}";
        sbom["components"]!.AsArray().Add(new JsonObject
        {
            ["type"] = "framework",
            ["bom-ref"] = address,
            ["name"] = name,
            ["version"] = Environment.Version.ToString(),
            ["licenses"] = new JsonArray(new JsonObject { ["license"] = new JsonObject { ["id"] = "MIT" } }),
            ["purl"] = address,
        });
    }

    return sbom.ToJsonString(new() { WriteIndented = true }) + "\n";
}

void Pack(string rid)
{
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
bool Check(string kind)
{
    string place = Directory.CreateTempSubdirectory("clackbeat-package-").FullName;
    try
    {
        if ((kind == Tool ? Install(place) : StartOf(kind)) is not { } start)
        {
            Console.WriteLine(kind == Tool ? "The tool could not be installed." : $"{kind}: not tried, this computer can't run it.");
            return kind != Tool;
        }

        if (start.Length > 1 && OperatingSystem.IsLinux())
        {
            BeGentle();
        }

        return kind == Tool ? Answers(kind, start, place, stepsOfTool) && Uninstall(place) : Answers(kind, start, place, stepsOfArchive) && Serves(kind, start, place);
    }
    finally
    {
        Directory.Delete(place, recursive: true);
    }
}

bool Answers(string kind, string[] start, string place, string[][] steps)
{
    foreach (string[] step in steps)
    {
        if (Run(start[0], [.. start[1..], .. step], place, quiet: true, home: place) is not 0 and var code)
        {
            Console.Error.WriteLine($"{kind}: {Program} {string.Join(' ', step)} ended with {code}.");
            return false;
        }
    }

    Console.WriteLine($"{kind}: tried, all {steps.Length} commands work.");
    return true;
}

// As a user does without a network: the folder of the package is the only place that is asked.
string[]? Install(string place)
{
    string tools = Path.Combine(place, "tools");
    return Run("dotnet", ["tool", "install", Program, "--tool-path", tools, "--source", artifacts, "-v", "q"], place, quiet: true, home: place) == 0
        ? [Path.Combine(tools, OperatingSystem.IsWindows() ? $"{Program}.exe" : Program)]
        : null;
}

bool Uninstall(string place)
{
    string tools = Path.Combine(place, "tools");
    bool gone = Run("dotnet", ["tool", "uninstall", Program, "--tool-path", tools], place, quiet: true, home: place) == 0
        && !Directory.EnumerateFiles(tools, "*", SearchOption.AllDirectories).Any();
    Console.WriteLine(gone ? $"{Tool}: uninstalled, nothing is left." : $"{Tool}: uninstalling left something behind.");
    return gone;
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

bool Serves(string kind, string[] start, string place)
{
    bool served = IsServed(start, place);
    Console.WriteLine(served ? $"{kind}: the live page is served." : $"{kind}: the live page is not served.");
    return served;
}

bool IsServed(string[] start, string place)
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
void WriteSums()
{
    string[] files = [.. Directory.EnumerateFiles(artifacts).Where(f => f.EndsWith(".nupkg", StringComparison.Ordinal) || all.Any(k => f == ArchiveOf(k))).Order(StringComparer.Ordinal)];
    string sums = Path.Combine(artifacts, Sums);
    File.WriteAllLines(sums, files.Select(f => $"{Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(f)))}  {Path.GetFileName(f)}"));
    File.Delete($"{sums}.sig");
    if (Environment.GetEnvironmentVariable("CLACKBEAT_SIGN_CERTIFICATE") is { Length: > 0 } certificate)
    {
        using X509Certificate2 key = X509CertificateLoader.LoadPkcs12FromFile(certificate, Environment.GetEnvironmentVariable("CLACKBEAT_SIGN_PASSWORD"));
        using RSA? rsa = key.GetRSAPrivateKey();
        File.WriteAllBytes($"{sums}.sig", rsa!.SignData(File.ReadAllBytes(sums), HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1));
        File.WriteAllText(Path.Combine(artifacts, "certificate.pem"), key.ExportCertificatePem() + "\n");
    }
}

string ToolPackage() => Directory.EnumerateFiles(artifacts, "*.nupkg").Single();

string Version() => XDocument.Load(Path.Combine(root, "Directory.Build.props")).Descendants("Version").Single().Value;

string FolderOf(string rid) => Path.Combine(artifacts, $"{Program}-{rid}");

string ProgramOf(string rid) => Path.Combine(FolderOf(rid), rid.StartsWith("win", StringComparison.Ordinal) ? $"{Program}.exe" : Program);

string ArchiveOf(string rid) => FolderOf(rid) + (rid.StartsWith("win", StringComparison.Ordinal) ? ".zip" : ".tar.gz");

static int Run(string program, IEnumerable<string> words, string? place = null, bool quiet = false, string? home = null)
{
    ProcessStartInfo info = new(program, words) { WorkingDirectory = place ?? "", RedirectStandardOutput = quiet, RedirectStandardError = quiet };
    if (home is not null)
    {
        info.Environment["HOME"] = info.Environment["DOTNET_CLI_HOME"] = home;
        info.Environment["NUGET_PACKAGES"] = Path.Combine(home, "packages");
    }

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
