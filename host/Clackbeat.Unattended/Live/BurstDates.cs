using Clackbeat.Season.Schedule;
using Clackbeat.Unattended.Raw;

namespace Clackbeat.Unattended.Live;

/// <summary>
/// Bursts recorded while this computer's calendar could not be right wait; once it is set, the machine's own unbroken clock tells
/// when they began. What an earlier run left has no such clock any more, and a person has to say when it was.
/// </summary>
internal sealed class BurstDates(RawFolder raw, TimeProvider time)
{
    private readonly Dictionary<string, long> _begun = [];

    /// <summary>Whether the calendar can be right now.</summary>
    public bool IsSet => CalendarSense.CanBe(time.GetUtcNow());

    /// <summary>Whether a burst's name can't be right.</summary>
    public static bool IsUndated(string path) => RawFolder.StartOf(path) is { } start && !CalendarSense.CanBe(start);

    /// <summary>Remembers when a burst began.</summary>
    /// <param name="path">Its file.</param>
    /// <param name="stamp">When, on the unbroken clock.</param>
    public void Note(string path, long stamp)
    {
        if (IsUndated(path))
        {
            _begun[Path.GetFileName(path)] = stamp;
        }
    }

    /// <summary>Names what waits by its true time.</summary>
    /// <returns>Bursts dated, and bursts of which nobody knows when they were.</returns>
    public (int Dated, int Unknown) Date()
    {
        (int dated, int unknown) = (0, 0);
        foreach (string path in raw.Pending().Where(IsUndated))
        {
            if (_begun.Remove(Path.GetFileName(path), out long stamp))
            {
                raw.Redate(path, time.GetUtcNow() - time.GetElapsedTime(stamp));
                dated++;
            }
            else
            {
                raw.SetAside(path);
                unknown++;
            }
        }

        return (dated, unknown);
    }
}
