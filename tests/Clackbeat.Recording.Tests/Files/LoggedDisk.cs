using Clackbeat.Recording.Files;

namespace Clackbeat.Recording.Tests.Files;

/// <summary>
/// A disk that remembers every write and every flush, and gives what may be found on it after the power went in the midst of any
/// of them: the model of Pillai et al., "All File Systems Are Not Created Equal" (OSDI 2014, 433–448). What was flushed stands;
/// of what came later each sector is there, isn't, or holds anything, whatever became of its neighbours, and the file may have
/// grown over it or not. Bytes beside those being written don't change (SQLite's "powersafe overwrite").
/// </summary>
internal sealed class LoggedDisk : IRecordingStore
{
    private const int SectorBytes = 512;

    private readonly List<byte> _written = [];

    // After each call: how much was written, and how much of it is on the disk itself.
    private readonly List<(int Written, int Flushed)> _calls = [(0, 0)];

    /// <summary>Told after each call that its effect stands.</summary>
    public Action? Called { get; set; }

    /// <summary>Calls so far, and one more: no call at all.</summary>
    public int Moments => _calls.Count;

    public void Append(ReadOnlySpan<byte> bytes)
    {
        _written.AddRange(bytes);
        Note(_calls[^1].Flushed);
    }

    public void Flush() => Note(_written.Count);

    public void Dispose()
    {
    }

    /// <summary>Every sector that was not flushed, from the file's beginning [bytes].</summary>
    /// <param name="moment">After so many calls.</param>
    public IReadOnlyList<(int From, int To)> Unflushed(int moment)
    {
        (int written, int flushed) = _calls[moment];
        List<(int, int)> sectors = [];
        for (int from = flushed; from < written;)
        {
            int to = Math.Min(written, ((from / SectorBytes) + 1) * SectorBytes);
            sectors.Add((from, to));
            from = to;
        }

        return sectors;
    }

    /// <summary>What is found: each unflushed sector with the fate that is asked for, the file as long as is asked for.</summary>
    /// <param name="moment">After so many calls.</param>
    /// <param name="fate">The fate of a sector by its number.</param>
    /// <param name="random">For what is trashed.</param>
    /// <param name="grown">Share of the unflushed bytes that the file grew over, 0 to 1.</param>
    public byte[] Found(int moment, Func<int, Fate> fate, Random random, double grown = 1)
    {
        (int written, int flushed) = _calls[moment];
        byte[] found = [.. _written.Take(written)];
        int number = 0;
        foreach ((int from, int to) in Unflushed(moment))
        {
            Spoil(found.AsSpan(from, to - from), fate(number++), random);
        }

        return found[..(flushed + (int)Math.Round(grown * (written - flushed)))];
    }

    private static void Spoil(Span<byte> sector, Fate fate, Random random)
    {
        int from = fate is Fate.TornToZeros or Fate.TornToTrash ? random.Next(sector.Length) : 0;
        switch (fate)
        {
            case Fate.Zeros or Fate.TornToZeros:
                sector[from..].Clear();
                break;
            case Fate.Trash or Fate.TornToTrash:
                random.NextBytes(sector[from..]);
                break;
        }
    }

    private void Note(int flushed)
    {
        _calls.Add((_written.Count, flushed));
        Called?.Invoke();
    }
}

/// <summary>What becomes of a sector that was written and not flushed.</summary>
internal enum Fate
{
    Kept,
    Zeros,
    Trash,
    TornToZeros,
    TornToTrash,
}
