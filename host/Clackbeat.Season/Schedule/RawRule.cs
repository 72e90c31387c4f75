namespace Clackbeat.Season.Schedule;

/// <summary>A raw burst on the disk.</summary>
/// <param name="Path">Its file.</param>
/// <param name="Ram">Name of the ram.</param>
/// <param name="StartUtc">When it began.</param>
/// <param name="Bytes">Its size.</param>
/// <param name="IsPrecious">Marked by hand, around an alert or of the first weeks: kept as long as possible.</param>
public sealed record RawBurst(string Path, string Ram, DateTimeOffset StartUtc, long Bytes, bool IsPrecious);

/// <summary>
/// Which raw bursts go when room is short. Ordinary ones first, the oldest first; when none is left the precious ones, the
/// oldest first. The newest burst of every ram stays, and summaries in the season store are never touched.
/// </summary>
public static class RawRule
{
    /// <summary>The bursts to remove, in order, until so many bytes are free or nothing more may go.</summary>
    /// <param name="bursts">All raw bursts.</param>
    /// <param name="bytes">Bytes to make free; nothing is removed for zero or less.</param>
    public static IReadOnlyList<RawBurst> ToRemove(IReadOnlyCollection<RawBurst> bursts, long bytes)
    {
        var removed = new List<RawBurst>();
        if (bytes <= 0)
        {
            return removed;
        }

        HashSet<RawBurst> newest = [.. bursts.GroupBy(b => b.Ram).Select(g => g.MaxBy(b => b.StartUtc)!)];
        foreach (RawBurst burst in bursts.Where(b => !newest.Contains(b)).OrderBy(b => b.IsPrecious).ThenBy(b => b.StartUtc).ThenBy(b => b.Path, StringComparer.Ordinal))
        {
            removed.Add(burst);
            bytes -= burst.Bytes;
            if (bytes <= 0)
            {
                break;
            }
        }

        return removed;
    }
}
