using Clackbeat.Recording.Files;

namespace Clackbeat.Recording.Tests.Files;

/// <summary>
/// A disk that loses power at a chosen call. What was flushed stands; of each write since, the disk may have kept all,
/// a part, or nothing, or hold anything in its place, as a real one may.
/// </summary>
internal sealed class CrashingStore(int crashAt, Random random) : IRecordingStore
{
    private readonly List<byte[]> _unflushed = [];
    private readonly List<byte> _disk = [];
    private int _calls;

    public void Append(ReadOnlySpan<byte> bytes)
    {
        // The write that is under way when the power goes has reached the disk in part at most.
        _unflushed.Add(bytes.ToArray());
        Count();
    }

    public void Flush()
    {
        // Power may go just before the disk has obeyed.
        Count();
        _unflushed.ForEach(_disk.AddRange);
        _unflushed.Clear();
    }

    public void Dispose()
    {
    }

    /// <summary>The file as it is found after the crash.</summary>
    public byte[] Remains()
    {
        List<byte> found = [.. _disk];
        List<byte[]> rest = [.. _unflushed.Select(Fate)];
        // The file's length may not have grown over the last writes either.
        int kept = random.Next(rest.Count + 1);
        rest.Take(kept).ToList().ForEach(found.AddRange);
        return [.. found];
    }

    private byte[] Fate(byte[] write)
    {
        byte[] found = [.. write];
        int from = random.Next(write.Length);
        switch (random.Next(4))
        {
            case 0:
                break;
            case 1:
                Array.Clear(found);
                break;
            case 2:
                random.NextBytes(found.AsSpan(from));
                break;
            default:
                Array.Clear(found, from, found.Length - from);
                break;
        }

        return found;
    }

    private void Count()
    {
        if (++_calls == crashAt)
        {
            throw new PowerGoneException();
        }
    }
}

internal sealed class PowerGoneException : Exception;
