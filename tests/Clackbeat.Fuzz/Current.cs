using System.Buffers.Binary;
using System.Diagnostics;
using System.IO.MemoryMappedFiles;

namespace Clackbeat.Fuzz;

/// <summary>
/// The input that is being run, where it outlives the process: a stack that overflows or a loop without end takes the
/// fuzzer down with it, and the input that did it must not be lost.
/// </summary>
internal sealed class Current : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private readonly string _file;
    private readonly MemoryMappedFile _memory;
    private readonly MemoryMappedViewAccessor _view;
    private readonly Timer _timer;
    private long _runs;
    private long _seenRuns = -1;
    private TimeSpan _seenUse;

    /// <summary>Makes the place. What a run before left there is an input that ended it: it becomes a failing input.</summary>
    public Current(Target target, string folder, TextWriter log)
    {
        Directory.CreateDirectory(folder);
        _file = Path.Combine(folder, $"{target.Name}.running");
        Rescue(target, folder, log);
        int bytes = sizeof(int) + Math.Max(target.LongestBytes, Seeds.Of(target).Max(s => s.Length));
        _memory = MemoryMappedFile.CreateFromFile(_file, FileMode.Create, null, bytes);
        _view = _memory.CreateViewAccessor(0, bytes);
        _timer = new Timer(_ => EndWhereStuck(target, log), null, Patience, Patience);
    }

    /// <summary>Puts the next input there.</summary>
    public void Set(byte[] input)
    {
        _view.Write(0, input.Length);
        _view.WriteArray(sizeof(int), input, 0, input.Length);
        Volatile.Write(ref _runs, _runs + 1);
    }

    /// <summary>All inputs have been run.</summary>
    public void Dispose()
    {
        _timer.Dispose();
        _view.Dispose();
        _memory.Dispose();
        File.Delete(_file);
    }

    private void Rescue(Target target, string folder, TextWriter log)
    {
        if (!File.Exists(_file))
        {
            return;
        }

        byte[] left = File.ReadAllBytes(_file);
        int length = BinaryPrimitives.ReadInt32LittleEndian(left);
        string kept = Path.Combine(folder, $"{target.Name}-ended-{Guid.NewGuid():N}");
        File.WriteAllBytes(kept, left[sizeof(int)..(sizeof(int) + length)]);
        log.WriteLine($"{target.Name}: an earlier run died or was stopped in the middle of the input in {kept}; see whether it did it: try {target.Name} {kept}");
    }

    // Other programs may hold the processor for long; only what this one used of it counts.
    private void EndWhereStuck(Target target, TextWriter log)
    {
        long runs = Volatile.Read(ref _runs);
        TimeSpan use = Environment.CpuUsage.TotalTime;
        if (runs == _seenRuns && use - _seenUse > Patience / 2)
        {
            log.WriteLine($"{target.Name}: an input doesn't end; it is in {_file}, and the next run keeps it");
            Process.GetCurrentProcess().Kill();
        }

        (_seenRuns, _seenUse) = (runs, use);
    }
}
