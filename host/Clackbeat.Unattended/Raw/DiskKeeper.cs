using Clackbeat.Season.Schedule;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Unattended.Raw;

/// <summary>What making room came to.</summary>
/// <param name="Removed">Raw bursts removed.</param>
/// <param name="RemovedBytes">Their bytes.</param>
/// <param name="RemovedPrecious">How many of them were precious.</param>
/// <param name="IsShort">There is still less room than asked for, and nothing more may go.</param>
/// <param name="Refused">Why files that should have gone could not be removed; null when all could.</param>
internal readonly record struct RoomMade(int Removed, long RemovedBytes, int RemovedPrecious, bool IsShort, string? Refused);

/// <summary>Keeps the raw bursts of all rams within their room by <see cref="RawRule"/>.</summary>
/// <param name="folders">Folders of the rams.</param>
/// <param name="settings">The room.</param>
/// <param name="freeBytes">Bytes free on the disk of a path.</param>
/// <param name="precious">Spans of time that make a ram's bursts precious.</param>
internal sealed class DiskKeeper(
    IReadOnlyList<RawFolder> folders, DiskSettings settings, Func<string, long> freeBytes, Func<string, IReadOnlyList<(DateTimeOffset From, DateTimeOffset To)>> precious)
{
    // Room is made for a while at once, so that the folders aren't read at every burst.
    private const int AheadShare = 50;
    private readonly Lock _gate = new();
    private long? _bytes;

    /// <summary>Bytes free on the disk of the raw bursts.</summary>
    public long FreeBytes => freeBytes(folders[0].Root);

    /// <summary>Bytes of all raw bursts.</summary>
    public long Bytes
    {
        get
        {
            lock (_gate)
            {
                return _bytes ??= All().Sum(b => b.Bytes);
            }
        }
    }

    /// <summary>Counts a burst that came to its day's folder.</summary>
    public void Count(string path)
    {
        lock (_gate)
        {
            _bytes += new FileInfo(path).Length;
        }
    }

    /// <summary>Removes raw bursts where room is short.</summary>
    public RoomMade MakeRoom()
    {
        lock (_gate)
        {
            long over = Math.Max((_bytes ??= All().Sum(b => b.Bytes)) - settings.MostBytes, settings.LeastFreeBytes - FreeBytes);
            if (over <= 0)
            {
                return default;
            }

            List<RawBurst> all = [.. All()];
            List<RawBurst> gone = [];
            string? refused = null;
            foreach (RawBurst burst in RawRule.ToRemove(all, over + (settings.MostBytes / AheadShare)))
            {
                try
                {
                    RawFolder.Remove(burst.Path);
                    gone.Add(burst);
                }
                catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
                {
                    refused ??= fault.Message;
                }
            }

            long goneBytes = gone.Sum(b => b.Bytes);
            _bytes = all.Sum(b => b.Bytes) - goneBytes;
            return new RoomMade(gone.Count, goneBytes, gone.Count(b => b.IsPrecious), goneBytes < over, refused);
        }
    }

    private IEnumerable<RawBurst> All() => folders.SelectMany(f =>
    {
        IReadOnlyList<(DateTimeOffset From, DateTimeOffset To)> spans = precious(f.Ram);
        return f.List(start => spans.Any(s => start >= s.From && start <= s.To));
    });
}
