using Clackbeat.Protocol.Messages;

namespace Clackbeat.Recording.Collecting;

/// <summary>Where a lone logger's bursts lie: its card, or the logger itself at the end of a line.</summary>
public interface IBurstSource : IDisposable
{
    /// <summary>Device that all bursts are of; null where each must be read to know.</summary>
    string? Device { get; }

    /// <summary>Bursts that are there, in the order of their numbers.</summary>
    IEnumerable<BurstEntry> List(CancellationToken cancellation);

    /// <summary>A burst's whole file.</summary>
    /// <exception cref="IOException">It can't be read.</exception>
    byte[] Read(BurstEntry entry, CancellationToken cancellation);

    /// <summary>Takes a burst away that is safe elsewhere; false where the source can't.</summary>
    bool Delete(BurstEntry entry);

    /// <summary>Has the logger record as long and as often as is wished, from its next burst on.</summary>
    /// <param name="schedule">The wish; within what a logger can keep to.</param>
    /// <param name="cancellation">Ends the wait for an answer.</param>
    /// <exception cref="IOException">The card can't be written.</exception>
    ScheduleOutcome SetSchedule(SetSchedule schedule, CancellationToken cancellation);
}

/// <summary>What became of a wish how long and how often to record.</summary>
public enum ScheduleOutcome
{
    /// <summary>The logger keeps to it from now on.</summary>
    Taken,

    /// <summary>It did so already.</summary>
    Known,

    /// <summary>The logger's firmware is older than this command.</summary>
    TooOld,

    /// <summary>The logger has no card, can't write it, or doesn't record by itself.</summary>
    Refused,
}

/// <summary>A burst that a source holds.</summary>
/// <param name="Number">Its number, by its name.</param>
/// <param name="Bytes">Length of its file [bytes].</param>
/// <param name="Place">Where it lies, for messages.</param>
public readonly record struct BurstEntry(uint Number, long Bytes, string Place);
