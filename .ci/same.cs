// Builds the last commit twice, in two folders of different names, and compares what came out: the same sources must give the same bytes.
//
//   dotnet run .ci/same.cs
//
// Compared are the program's own assemblies. Ends with 0 when every one is the same in both.
using System.Diagnostics;
using System.Security.Cryptography;

string root = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(PathOfThis())!, ".."));
string place = Directory.CreateTempSubdirectory("clackbeat-same-").FullName;
try
{
    SortedDictionary<string, string>[] builds = [Build("one"), Build(Path.Combine("another", "folder", "with a longer name"))];
    string[] names = [.. builds.SelectMany(b => b.Keys).Distinct().Order(StringComparer.Ordinal)];
    string[] different = [.. names.Where(n => builds[0].GetValueOrDefault(n) != builds[1].GetValueOrDefault(n))];
    foreach (string name in names)
    {
        Console.WriteLine($"{(different.Contains(name) ? "! " : "  ")}{builds[0].GetValueOrDefault(name, "missing")[..16]}  {name}");
    }

    Console.WriteLine(different.Length == 0 && names.Length > 0 ? $"{names.Length} assemblies, each the same in both builds." : "Lines that begin with ! differ.");
    return different.Length == 0 && names.Length > 0 ? 0 : 1;
}
finally
{
    Directory.Delete(place, recursive: true);
}

SortedDictionary<string, string> Build(string name)
{
    string folder = Path.Combine(place, name);
    Run("git", ["clone", "-q", root, folder]);

    // A compiler that is kept running would be asked by both; each is to start anew.
    Run("dotnet", ["build", Path.Combine(folder, "host", "Clackbeat"), "-c", "Release", "-v", "q", "-nologo", "-p:UseSharedCompilation=false"]);
    return new(
        Directory.EnumerateFiles(Path.Combine(folder, "host", "Clackbeat", "bin", "Release", "net10.0"), "Clackbeat*.dll")
            .ToDictionary(f => Path.GetFileName(f), f => Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(f)))),
        StringComparer.Ordinal);
}

static void Run(string program, IEnumerable<string> words)
{
    using var process = Process.Start(program, words);
    process.WaitForExit();
    if (process.ExitCode != 0)
    {
        throw new InvalidOperationException($"{program} {string.Join(' ', words)} ended with {process.ExitCode}.");
    }
}

static string PathOfThis([System.Runtime.CompilerServices.CallerFilePath] string path = "") => path;
