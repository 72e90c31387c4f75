using System.Diagnostics;
using Trace = SharpFuzz.Common.Trace;

namespace Clackbeat.Fuzz;

/// <summary>
/// Many executions in one process. Where the assemblies under test were instrumented (fuzz.sh does it), an input that
/// reaches a new branch, or one of them a new number of times, is kept to be changed further; without, seeds alone are.
/// </summary>
internal sealed unsafe class Campaign(Target target, string folder)
{
    private const int MapBytes = 1 << 16;
    private const int MostKept = 20_000;

    private static readonly byte[] Buckets = [.. Enumerable.Range(0, 256).Select(Bucket)];

    private readonly byte[] _map = GC.AllocateArray<byte>(MapBytes, pinned: true);
    private readonly byte[] _seen = new byte[MapBytes];
    private readonly List<byte[]> _kept = [.. Seeds.Of(target)];

    /// <summary>Runs for so many executions, or so long.</summary>
    /// <returns>Inputs that broke the target; each lies in the folder.</returns>
    public int Run(long executions, TimeSpan longest, int seed, TextWriter log)
    {
        Mutator mutator = new(seed);
        HashSet<string> broken = [];
        using Current current = new(target, folder, log);
        var clock = Stopwatch.StartNew();
        long done = 0;
        int seeds = _kept.Count;
        fixed (byte* map = _map)
        {
            Trace.SharedMem = map;
            TimeSpan told = TimeSpan.Zero;
            for (; done < executions && clock.Elapsed < longest; done++)
            {
                byte[] input = done < seeds
                    ? _kept[(int)done]
                    : mutator.Change(mutator.PickShort(_kept), mutator.Pick(_kept), target.LongestBytes);
                current.Set(input);
                Try(input, broken, log);
                if (clock.Elapsed - told > TimeSpan.FromMinutes(1))
                {
                    told = clock.Elapsed;
                    log.WriteLine($"{target.Name}: {done} executions in {told.TotalSeconds:0} s, {_kept.Count} inputs kept, {Branches} branches, {broken.Count} kinds of failure");
                }
            }
        }

        log.WriteLine($"{target.Name}: {done} executions in {clock.Elapsed.TotalSeconds:0} s, {_kept.Count} inputs kept, {Branches} branches, {broken.Count} kinds of failure");
        return broken.Count;
    }

    private int Branches => _seen.Count(b => b != 0);

    private void Try(byte[] input, HashSet<string> broken, TextWriter log)
    {
        Array.Clear(_map);
        Trace.PrevLocation = 0;
        try
        {
            Watchdog.Run(target, input);
        }
        catch (Exception failure)
        {
            string kind = $"{failure.GetType().Name} {failure.StackTrace?.Split('\n').FirstOrDefault()?.Trim()}";
            if (broken.Add(kind))
            {
                Directory.CreateDirectory(folder);
                string file = Path.Combine(folder, $"{target.Name}-{broken.Count}");
                File.WriteAllBytes(file, input);
                log.WriteLine($"{target.Name}: {failure.Message} ({kind}); the input is in {file}");
            }
        }

        if (IsNew() && _kept.Count < MostKept)
        {
            _kept.Add(input);
        }
    }

    // A branch counts as seen once, twice, up to 4, 8, 16, 32, 128 times or more, as AFL has it.
    private bool IsNew()
    {
        bool any = false;
        ReadOnlySpan<byte> map = _map;
        for (int at = 0; map[at..].IndexOfAnyExcept((byte)0) is >= 0 and var skip; at++)
        {
            at += skip;
            byte bucket = Buckets[map[at]];
            if ((bucket & ~_seen[at]) != 0)
            {
                _seen[at] |= bucket;
                any = true;
            }
        }

        return any;
    }

    private static byte Bucket(int count) => count switch
    {
        0 => 0,
        1 => 1,
        2 => 2,
        3 => 4,
        < 8 => 8,
        < 16 => 16,
        < 32 => 32,
        < 128 => 64,
        _ => 128,
    };
}
