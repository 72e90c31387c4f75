using Clackbeat.Season.Schedule;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Unattended.Raw;

/// <summary>What making room came to.</summary>
/// <param name="Removed">Raw bursts removed.</param>
/// <param name="RemovedBytes">Their bytes.</param>
/// <param name="RemovedPrecious">How many of them were precious.</param>
/// <param name="IsShort">There is still less room than asked for, and nothing more may go.</param>
internal readonly record struct RoomMade(int Removed, long RemovedBytes, int RemovedPrecious, bool IsShort);

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
            IReadOnlyList<RawBurst> going = RawRule.ToRemove(all, over + (settings.MostBytes / AheadShare));
            foreach (RawBurst burst in going)
            {
                RawFolder.Remove(burst.Path);
            }

            long gone = going.Sum(b => b.Bytes);
            _bytes = all.Sum(b => b.Bytes) - gone;
            return new RoomMade(going.Count, gone, going.Count(b => b.IsPrecious), gone < over);
        }
    }

    private IEnumerable<RawBurst> All() => folders.SelectMany(f =>
    {
        IReadOnlyList<(DateTimeOffset From, DateTimeOffset To)> spans = precious(f.Ram);
        return f.List(start => spans.Any(s => start >= s.From && start <= s.To));
    });
}
