using Clackbeat.Recording.Files;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Collecting;

/// <summary>What a collection did.</summary>
public sealed record CollectSummary
{
    /// <summary>Bursts that are new in the library.</summary>
    public required IReadOnlyList<BurstFacts> Taken { get; init; }

    /// <summary>Bursts that were there already.</summary>
    public required int Known { get; init; }

    /// <summary>Bursts taken away from the card.</summary>
    public required int Deleted { get; init; }

    /// <summary>Files that are no bursts or can't be read, with why.</summary>
    public required IReadOnlyList<Fact> Refused { get; init; }

    /// <summary>Bursts taken that have no end or damaged frames.</summary>
    public int Damaged => Taken.Count(b => !b.IsWhole);
}

/// <summary>Takes over what a lone logger gathered: each burst once, one at a time, safely before anything is deleted.</summary>
public sealed class Collector(BurstLibrary library, string program, IReadOnlyList<RecordingDocument> documents)
{
    private readonly List<BurstFacts> _taken = [];
    private readonly List<Fact> _refused = [];
    private int _known;
    private int _deleted;

    /// <summary>Told of each burst looked at.</summary>
    public Action<BurstEntry>? Looked { get; set; }

    /// <summary>Takes all bursts of a source.</summary>
    /// <param name="source">The card or the logger.</param>
    /// <param name="delete">Take away from the card what is whole and safe here.</param>
    /// <param name="stop">Ends the work between two bursts.</param>
    public CollectSummary Run(IBurstSource source, bool delete, CancellationToken stop)
    {
        foreach (BurstEntry entry in source.List(stop))
        {
            stop.ThrowIfCancellationRequested();
            Looked?.Invoke(entry);
            if (source.Device is { } device
                && library.Find(device, entry.Number).Any(b => b.Facts.IsWhole && b.Facts.Bytes == entry.Bytes))
            {
                // Over a line a burst takes a quarter of a minute; its number and length say enough.
                _known++;
                continue;
            }

            Take(source, entry, delete, stop);
        }

        return new CollectSummary { Taken = _taken, Known = _known, Deleted = _deleted, Refused = _refused };
    }

    private void Take(IBurstSource source, BurstEntry entry, bool delete, CancellationToken stop)
    {
        BurstFacts facts;
        try
        {
            byte[] file = source.Read(entry, stop);
            facts = BurstFacts.Of(file, entry.Place, program);
            if (library.Keep(facts, file, documents))
            {
                _taken.Add(facts);
            }
            else
            {
                _known++;
            }
        }
        catch (Exception fault) when (fault is InputException || (fault is IOException and not Link.LineException and not DiskException))
        {
            _refused.Add(fault is ITelling { What: var what } ? what : Fact.Of("site.at-key", ("key", entry.Place), ("what", fault.Message)));
            return;
        }

        // Only what is whole: of a damaged burst the card may still give more to somebody who knows how.
        if (delete && facts.IsWhole && source.Delete(entry))
        {
            _deleted++;
        }
    }
}
