using Clackbeat.Recording.Collecting;
using Clackbeat.Recording.Reading;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Records.Sources;

/// <summary>
/// A lone logger's bursts: the folder that they were collected into, or its card. Each burst is a source of its own, once, with the
/// bounds of its time; a card is collected into a folder that goes afterwards, so that both go one way.
/// </summary>
public sealed class BurstFolder : IDisposable
{
    private const string CardEnding = "*.cbf";
    private static readonly EnumerationOptions AnyCase = new() { MatchCasing = MatchCasing.CaseInsensitive, RecurseSubdirectories = true };

    private readonly string? _temporary;

    private BurstFolder(string? temporary) => _temporary = temporary;

    /// <summary>The bursts that can be dated, by logger and number.</summary>
    public IReadOnlyList<ISampleSource> Bursts { get; private set; } = [];

    /// <summary>Bursts that nobody can date.</summary>
    public int Undated { get; private set; }

    /// <summary>The loggers that they are of.</summary>
    public IReadOnlyList<string> Devices { get; private set; } = [];

    /// <summary>Files that can't be read and times that can't be right.</summary>
    public IReadOnlyList<Fact> Troubles { get; private set; } = [];

    /// <summary>Whether a folder is a logger's card: it holds files of bursts as loggers write them.</summary>
    public static bool IsCard(string folder) => Directory.EnumerateFiles(folder, CardEnding, AnyCase).Any();

    /// <summary>Opens a folder of bursts.</summary>
    /// <param name="folder">The folder that they were collected into, or a card's.</param>
    /// <param name="site">The ram.</param>
    /// <param name="started">When the logger was switched on for the first burst on a card; null where nobody knows.</param>
    /// <param name="program">Version of this program.</param>
    /// <param name="time">The host's clocks.</param>
    /// <param name="cancellation">Ends the work early.</param>
    /// <exception cref="InputException">There is no burst in the folder.</exception>
    public static BurstFolder Open(
        string folder, RamSite site, SwitchedOn? started, string program, TimeProvider time, CancellationToken cancellation = default)
    {
        bool isCard = IsCard(folder);
        var opened = new BurstFolder(isCard ? Directory.CreateTempSubdirectory("clackbeat-card-").FullName : null);
        try
        {
            string place = opened._temporary ?? folder;
            var library = BurstLibrary.Open(place, time, cancellation);
            var troubles = new List<Fact>(library.Unreadable);
            if (isCard)
            {
                using var card = new CardSource(folder);
                troubles.AddRange(new Collector(library, program, []).Run(card, delete: false, cancellation).Refused);
            }

            if (!library.Bursts.Any())
            {
                throw troubles.Count > 0
                    ? InputException.Of("burst.none-but", ("folder", folder), ("found", troubles[0]))
                    : InputException.Of("burst.none", ("folder", folder));
            }

            var index = new BurstIndex(place);
            if (started?.For(library) is { } known)
            {
                index.Add(known);
            }

            opened.Take(index, library, place, isCard, site, troubles, cancellation);
            return opened;
        }
        catch
        {
            opened.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (_temporary is not null)
        {
            Directory.Delete(_temporary, recursive: true);
        }
    }

    private void Take(
        BurstIndex index, BurstLibrary library, string place, bool isCard, RamSite site, List<Fact> troubles, CancellationToken cancellation)
    {
        IReadOnlyList<(KeptBurst Burst, BurstTime Time)> placed = index.Place(library, out IReadOnlyList<string> contradicted);
        troubles.AddRange(contradicted.Select(d => Fact.Of("burst.contradicted", ("device", d), ("file", BurstIndex.KnownName))));

        // One burst may lie there twice, read while it was written and whole; the fullest counts.
        (KeptBurst Burst, BurstTime Time)[] once =
            [.. placed.GroupBy(p => p.Burst.Facts.Key).Select(g => g.OrderByDescending(p => p.Burst.Facts.IsWhole).ThenByDescending(p => p.Burst.Facts.Samples).First())];
        Devices = [.. once.Select(p => p.Burst.Facts.Header.Device).Distinct()];
        Undated = once.Count(p => p.Time.MiddleS is null);
        Bursts = [.. once.Where(p => p.Time.MiddleS is not null && p.Burst.Facts.Samples > 0).Select(p => Source(p.Burst, p.Time))];
        Troubles = troubles;

        ISampleSource Source(KeptBurst burst, BurstTime time)
        {
            string path = Path.Combine(place, burst.File);
            var scan = RecordingScan.Of(path, stop: cancellation);
            long toFirst = scan.Sessions.SelectMany(s => s.Segments).First().FirstDeviceMicroseconds - burst.Facts.StartMicroseconds;
            var start = new RecordStart(DateTimeOffset.UnixEpoch.AddSeconds(time.MiddleS!.Value + (Math.Max(0, toFirst) / 1e6)), time.UncertaintyS);
            return new RecordingSource(isCard ? burst.Facts.Header.Place : path, scan, site, start);
        }
    }
}

/// <summary>When somebody switched a logger on.</summary>
/// <param name="Utc">When.</param>
/// <param name="UncertaintyS">How far that may be off, either way [s].</param>
public sealed record SwitchedOn(DateTimeOffset Utc, double UncertaintyS)
{
    /// <summary>The burst that followed, among those of a library: the first that power woke the logger for, or else the first.</summary>
    public KnownTime? For(BurstLibrary library) => For(library.Bursts.Select(b => b.Facts));

    /// <summary>The burst that followed, among some.</summary>
    public KnownTime? For(IEnumerable<BurstFacts> bursts)
    {
        // Switching on is what wakes a logger by power; a burst that followed its own sleep tells nothing of it.
        BurstFacts[] ordered = [.. bursts.OrderBy(b => b.Number)];
        return (Array.Find(ordered, b => b.Wake == Protocol.WakeCauses.Power) ?? ordered.FirstOrDefault()) is { } first
            ? new KnownTime(first.Header.Device, first.Number, Utc, UncertaintyS)
            : null;
    }
}
