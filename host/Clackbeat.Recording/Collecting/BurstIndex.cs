using System.Globalization;
using System.Text;
using Clackbeat.Site;

namespace Clackbeat.Recording.Collecting;

/// <summary>
/// The list of a library's bursts for people and other programs, and the times that people told. The list is made anew
/// from the recordings at every collection; only the told times are kept from one to the next.
/// </summary>
public sealed class BurstIndex
{
    /// <summary>Name of the list.</summary>
    public const string FileName = "bursts.csv";

    /// <summary>Name of the file of told times.</summary>
    public const string KnownName = "known-times.csv";

    private const string KnownHeader = "device,burst,switched_on_utc,uncertainty_s";

    private readonly string _folder;
    private readonly List<KnownTime> _known;

    /// <summary>Opens the index of a folder.</summary>
    public BurstIndex(string folder)
    {
        _folder = folder;
        _known = ReadKnown(Path.Combine(folder, KnownName));
    }

    /// <summary>Times that somebody knows.</summary>
    public IReadOnlyList<KnownTime> Known => _known;

    /// <summary>Adds a time that somebody knows; one of the same burst is replaced.</summary>
    public void Add(KnownTime time)
    {
        _known.RemoveAll(k => k.Device == time.Device && k.Burst == time.Burst);
        _known.Add(time);
        StringBuilder text = new(KnownHeader + "\n");
        foreach (KnownTime known in _known)
        {
            text.Append(string.Create(
                CultureInfo.InvariantCulture,
                $"{known.Device},{known.Burst},{Utc((known.Utc - DateTimeOffset.UnixEpoch).TotalSeconds)},{known.UncertaintyS}\n"));
        }

        Replace(KnownName, text.ToString());
    }

    /// <summary>When each burst of a library began, by the times told and by what the bursts say of one another.</summary>
    /// <param name="library">The library.</param>
    /// <param name="contradicted">Devices whose known times can't all be right; their bounds leave those times out.</param>
    public IReadOnlyList<(KeptBurst Burst, BurstTime Time)> Place(BurstLibrary library, out IReadOnlyList<string> contradicted)
    {
        List<string> wrong = [];
        List<(KeptBurst, BurstTime)> placed = [];
        foreach (IGrouping<string, KeptBurst> logger in library.Bursts.GroupBy(b => b.Facts.Header.Device))
        {
            KeptBurst[] bursts = [.. logger];
            IReadOnlyList<BurstTime> times = BurstCalendar.Place(
                [.. bursts.Select(b => new DatedBurst(b.Facts, b.CollectedAt))], [.. _known.Where(k => k.Device == logger.Key)], out bool no);
            wrong.AddRange(no ? [logger.Key] : []);
            placed.AddRange(bursts.Zip(times));
        }

        contradicted = wrong;
        return placed;
    }

    /// <summary>Writes the list.</summary>
    /// <returns>What the calendar says; devices whose known times can't all be right.</returns>
    public IReadOnlyList<string> Write(BurstLibrary library)
    {
        StringBuilder text = new(
            "device,burst,boot,start_utc,uncertainty_s,not_before_utc,not_after_utc,length_s,samples,missing,whole,file,sha256\n");
        IReadOnlyList<(KeptBurst Burst, BurstTime Time)> placed = Place(library, out IReadOnlyList<string> contradicted);
        foreach ((KeptBurst burst, BurstTime time) in placed)
        {
            Row(text, burst, time);
        }

        Replace(FileName, text.ToString());
        return contradicted;
    }

    private static void Row(StringBuilder text, KeptBurst burst, BurstTime time)
    {
        BurstFacts facts = burst.Facts;
        string lengthS = ((facts.EndMicroseconds - facts.StartMicroseconds) / 1e6).ToString("0.000", CultureInfo.InvariantCulture);
        text.Append(string.Create(
            CultureInfo.InvariantCulture,
            $"{facts.Header.Device},{facts.Number},{facts.Boot},{Utc(time.MiddleS)},{time.UncertaintyS:0.###},{Utc(time.NotBefore)},{Utc(time.NotAfter)},{lengthS},{facts.Samples},{facts.Missing},{(facts.IsWhole ? "yes" : "no")},{burst.File},{facts.Sha256}\n"));
    }

    private static string Utc(double? seconds) => seconds is { } s && double.IsFinite(s)
        ? DateTime.UnixEpoch.AddSeconds(s).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture)
        : "";

    // Whole or not at all: written beside, flushed, renamed.
    private void Replace(string name, string text)
    {
        string path = Path.Combine(_folder, name);
        string unfinished = path + ".part";
        using (FileStream file = new(unfinished, FileMode.Create, FileAccess.Write))
        {
            file.Write(Encoding.UTF8.GetBytes(text));
            file.Flush(flushToDisk: true);
        }

        File.Move(unfinished, path, overwrite: true);
        Files.FolderSync.Flush(_folder);
    }

    private static List<KnownTime> ReadKnown(string path)
    {
        List<KnownTime> known = [];
        foreach (string line in File.Exists(path) ? File.ReadLines(path).Skip(1) : [])
        {
            string[] cells = line.Split(',');
            CultureInfo plain = CultureInfo.InvariantCulture;
            if (cells.Length >= 4
                && uint.TryParse(cells[1], NumberStyles.None, plain, out uint burst)
                && DateTimeOffset.TryParse(cells[2], plain, DateTimeStyles.AssumeUniversal, out DateTimeOffset utc)
                && double.TryParse(cells[3], NumberStyles.Float, plain, out double uncertaintyS))
            {
                known.Add(new KnownTime(cells[0], burst, utc, uncertaintyS));
            }
            else if (line.Length > 0)
            {
                throw InputException.Of("burst.index-line", ("file", path), ("line", line), ("columns", KnownHeader));
            }
        }

        return known;
    }
}
