// Audits what the program and its tests are built from: licences and known vulnerabilities of every package.
//
//   dotnet run .ci/audit.cs                         lists licences; fails on one that isn't permissive, or a vulnerability
//   dotnet run .ci/audit.cs -- --notices FILE       and writes the notices that travel with a package
//
// Licences are read from the packages themselves, so nothing but a restore needs the network. Vulnerabilities come from
// the package registry; where it serves none, which a package known to be vulnerable shows, that is said.
using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;
using System.Xml.Linq;

string[] permissive = ["MIT", "MIT-0", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "PostgreSQL", "MS-PL"];

// Used to test and never shipped: a copyleft licence on files that nobody gets binds nobody.
string[] onlyInTests = ["MPL-2.0"];

// Older packages name an address instead of a licence; read there on the day they came in.
Dictionary<string, string> byAddress = new(StringComparer.OrdinalIgnoreCase)
{
    ["https://github.com/MiloszKrajewski/K4os.Compression.LZ4/blob/master/LICENSE?raw=true"] = "MIT",
    ["https://raw.githubusercontent.com/xunit/xunit/master/license.txt"] = "Apache-2.0",
};

string root = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(PathOfThis())!, ".."));
(int restored, string why) = Run("dotnet", ["restore", Path.Combine(root, "Clackbeat.slnx"), "-v", "q", "-nologo"]);
if (restored != 0)
{
    Console.Error.WriteLine($"error: the packages could not be restored. After a change of a package or a reference: 'dotnet restore Clackbeat.slnx', and commit the lock files.\n{why}");
    return 1;
}

HashSet<string> shippedKeys = [.. PackagesOf(Path.Combine(root, "host", "Clackbeat", "obj", "project.assets.json")).Select(p => p.Key)];
List<Package> packages =
[
    .. Directory.EnumerateFiles(root, "project.assets.json", SearchOption.AllDirectories)
        .SelectMany(PackagesOf)
        .DistinctBy(p => p.Key)
        .OrderBy(p => p.Key, StringComparer.OrdinalIgnoreCase),
];
bool clean = packages.Count > 0;
foreach (Package package in packages)
{
    bool shipped = shippedKeys.Contains(package.Key);
    bool allowed = permissive.Contains(package.Licence) || (!shipped && onlyInTests.Contains(package.Licence));
    Console.WriteLine($"{(allowed ? "  " : "! ")}{package.Key,-62} {package.Licence,-14} {(shipped ? "shipped" : "build and tests")}");
    clean &= allowed;
}

Console.WriteLine(clean
    ? $"{packages.Count} packages, all under permissive licences (those of tests aside that nobody gets)."
    : "Lines that begin with ! are under a licence that is not permissive or not known.");

clean &= Vulnerabilities();
if (args is ["--notices", var file])
{
    File.WriteAllText(file, Notices(packages.Where(p => shippedKeys.Contains(p.Key))));
}

return clean ? 0 : 1;

bool Vulnerabilities()
{
    if (!RegistryKnowsVulnerabilities())
    {
        Console.WriteLine("Vulnerabilities: not checked. The package registry here serves no list of them; run this where it does.");
        return true;
    }

    (int code, string output) = Run("dotnet", ["list", Path.Combine(root, "Clackbeat.slnx"), "package", "--vulnerable", "--include-transitive"]);
    bool found = output.Contains("has the following vulnerable packages", StringComparison.Ordinal);
    Console.WriteLine(found ? output : code == 0 ? "Vulnerabilities: none known." : $"Vulnerabilities: could not be listed. {output}");
    return code == 0 && !found;
}

// The version of a well-known package that advisory GHSA-5crp-9r3c-p9vr is about: a list without it is no list.
static bool RegistryKnowsVulnerabilities()
{
    string folder = Directory.CreateTempSubdirectory("clackbeat-audit-").FullName;
    try
    {
        string project = Path.Combine(folder, "Canary.csproj");
        File.WriteAllText(project, """
            <Project Sdk="Microsoft.NET.Sdk">
              <PropertyGroup><TargetFramework>net10.0</TargetFramework></PropertyGroup>
              <ItemGroup><PackageReference Include="Newtonsoft.Json" Version="12.0.1" /></ItemGroup>
            </Project>
            """);
        return Run("dotnet", ["restore", project, "-nologo"]).Output.Contains("NU1903", StringComparison.Ordinal);
    }
    finally
    {
        Directory.Delete(folder, recursive: true);
    }
}

IEnumerable<Package> PackagesOf(string assets)
{
    using var json = JsonDocument.Parse(File.ReadAllText(assets));
    string[] stores = [.. json.RootElement.GetProperty("packageFolders").EnumerateObject().Select(f => f.Name)];
    List<Package> found = [];
    foreach (JsonProperty library in json.RootElement.GetProperty("libraries").EnumerateObject())
    {
        if (library.Value.GetProperty("type").GetString() == "package")
        {
            string path = library.Value.GetProperty("path").GetString()!;
            found.Add(Read(library.Name, stores.Select(s => Path.Combine(s, path)).First(Directory.Exists)));
        }
    }

    return found;
}

Package Read(string key, string folder)
{
    XElement about = XDocument.Load(Directory.EnumerateFiles(folder, "*.nuspec").First()).Root!.Elements().First(e => e.Name.LocalName == "metadata");
    string? Value(string name) => about.Elements().FirstOrDefault(e => e.Name.LocalName == name)?.Value.Trim();
    XElement? licence = about.Elements().FirstOrDefault(e => e.Name.LocalName == "license");
    string? text = licence?.Attribute("type")?.Value == "file" ? File.ReadAllText(Path.Combine(folder, licence.Value.Trim())) : null;
    string name = text is not null ? NameOf(text)
        : licence?.Value.Trim() ?? byAddress.GetValueOrDefault(Value("licenseUrl") ?? "", $"unknown ({Value("licenseUrl") ?? "none named"})");
    string[] notices =
    [
        .. Directory.EnumerateFiles(folder)
            .Where(f => Path.GetFileName(f).Contains("NOTICE", StringComparison.OrdinalIgnoreCase)
                || Path.GetFileNameWithoutExtension(f).StartsWith("LICENSE", StringComparison.OrdinalIgnoreCase))
            .Order(StringComparer.Ordinal)
            .Select(File.ReadAllText),
    ];
    return new Package(key, name, Value("copyright") ?? $"Copyright {Value("authors")}", Value("projectUrl") ?? "", notices);
}

static string NameOf(string text) => text switch
{
    _ when text.Contains("Apache License", StringComparison.Ordinal) => "Apache-2.0",
    _ when text.Contains("Permission is hereby granted, free of charge", StringComparison.Ordinal) => "MIT",
    _ => "unknown (see its licence file)",
};

string Notices(IEnumerable<Package> shipped)
{
    StringBuilder text = new("Clackbeat is made with the work of others. Their licences and notices:\n\n");
    List<Package> list = [.. shipped];
    foreach (Package package in list)
    {
        text.Append($"{package.Key.Replace('/', ' ')}, {package.Licence}\n  {package.Copyright}\n  {package.Address}\n");
    }

    text.Append(".NET runtime and ASP.NET Core, MIT\n  Copyright (c) .NET Foundation and Contributors\nNoto Sans, SIL Open Font License 1.1\n");
    foreach (string licence in list.Select(p => p.Licence).Distinct().Order(StringComparer.Ordinal))
    {
        Section(licence, File.ReadAllText(Path.Combine(root, "host", "Clackbeat", "Licences", $"{licence}.txt")));
    }

    // Packages of one family carry the same long text.
    foreach (IGrouping<string, (string Key, string Text)> same in list.SelectMany(p => p.Notices.Select(n => (p.Key, Text: n.ReplaceLineEndings("\n").Trim()))).GroupBy(n => n.Text))
    {
        Section(string.Join(", ", same.Select(n => n.Key.Replace('/', ' ')).Distinct()), same.Key);
    }

    // The runtime's own texts lie in the folder of the SDK: shared/Microsoft.NETCore.App/VERSION/ is where it runs from.
    string dotnet = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", ".."));
    foreach (string path in Directory.EnumerateFiles(dotnet, "*.txt").Order(StringComparer.Ordinal))
    {
        Section($".NET, {Path.GetFileName(path)}", File.ReadAllText(path));
    }

    Section("Noto Sans", File.ReadAllText(Path.Combine(root, "host", "Clackbeat.Report", "Fonts", "OFL.txt")));
    return text.Replace("\r\n", "\n").ToString();

    void Section(string title, string body) => text.Append($"\n{new string('=', 80)}\n{title}\n{new string('=', 80)}\n\n{body.Trim()}\n");
}

static (int Code, string Output) Run(string program, IEnumerable<string> words)
{
    using Process process = Process.Start(new ProcessStartInfo(program, words) { RedirectStandardOutput = true, RedirectStandardError = true })!;
    Task<string> error = process.StandardError.ReadToEndAsync();
    string output = process.StandardOutput.ReadToEnd();
    process.WaitForExit();
    return (process.ExitCode, output + error.Result);
}

static string PathOfThis([System.Runtime.CompilerServices.CallerFilePath] string path = "") => path;

/// <summary>A package and what must be said of it.</summary>
internal sealed record Package(string Key, string Licence, string Copyright, string Address, IReadOnlyList<string> Notices);
