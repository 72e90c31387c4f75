using System.Globalization;
using System.Runtime.InteropServices;
using Clackbeat.Fuzz;
using SharpFuzz;

// The long run; docs/hardening.md says how. Each command names its target, one of Targets.cs.

// Instrumented code writes to this map from its first line on; the fuzzers put their own in its place.
unsafe
{
    SharpFuzz.Common.Trace.SharedMem = (byte*)NativeMemory.AllocZeroed(1 << 16);
}

try
{
    return args switch
    {
        ["seeds", var name, var folder] => WriteSeeds(Target.Of(name), folder),
        ["run", var name, var executions, var minutes, var folder] => Run(Target.Of(name), executions, minutes, folder),
        ["try", var name, var file] => Try(Target.Of(name), file),
        ["afl", var name] => Afl(Target.Of(name)),
        _ => Usage(),
    };
}
catch (Exception wrong) when (wrong is ArgumentException or FormatException)
{
    Console.Error.WriteLine(wrong.Message);
    return 2;
}

static int Usage()
{
    Console.Error.WriteLine(
        """
        seeds TARGET FOLDER                      writes the inputs to begin with
        run TARGET EXECUTIONS MINUTES FOLDER     runs in this process; failing inputs go to the folder
        try TARGET FILE                          runs one input and shows how it fails
        afl TARGET                               the program that afl-fuzz starts (see fuzz.sh)
        """);
    return 2;
}

static int WriteSeeds(Target target, string folder)
{
    Directory.CreateDirectory(folder);
    IReadOnlyList<byte[]> seeds = Seeds.Of(target);
    for (int i = 0; i < seeds.Count; i++)
    {
        File.WriteAllBytes(Path.Combine(folder, $"{target.Name}-{i:000}"), seeds[i]);
    }

    Console.WriteLine($"{seeds.Count} inputs in {folder}");
    return 0;
}

static int Run(Target target, string executions, string minutes, string folder) => new Campaign(target, folder).Run(
    long.Parse(executions, CultureInfo.InvariantCulture),
    TimeSpan.FromMinutes(double.Parse(minutes, CultureInfo.InvariantCulture)),
    Environment.TickCount,
    Console.Out) == 0 ? 0 : 1;

static int Try(Target target, string file)
{
    Watchdog.Run(target, File.ReadAllBytes(file));
    Console.WriteLine("It holds.");
    return 0;
}

static int Afl(Target target)
{
    Fuzzer.Run(stream =>
    {
        using MemoryStream bytes = new();
        stream.CopyTo(bytes);
        byte[] input = bytes.ToArray();
        Watchdog.Run(target, input.Length <= target.LongestBytes ? input : input[..target.LongestBytes]);
    });
    return 0;
}
