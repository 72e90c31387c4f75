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
}

/// <summary>A burst that a source holds.</summary>
/// <param name="Number">Its number, by its name.</param>
/// <param name="Bytes">Length of its file [bytes].</param>
/// <param name="Place">Where it lies, for messages.</param>
public readonly record struct BurstEntry(uint Number, long Bytes, string Place);
