using System.Globalization;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Recording.Time;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Collecting;

/// <summary>A burst that a library holds.</summary>
/// <param name="Facts">What it says of itself.</param>
/// <param name="File">Name of its recording in the library's folder.</param>
/// <param name="CollectedAt">When it was taken over, by this computer's clock.</param>
public sealed record KeptBurst(BurstFacts Facts, string File, DateTimeOffset CollectedAt);

/// <summary>
/// A folder of bursts taken over from lone loggers, one recording each. What it holds is known from the recordings
/// themselves, every time: there is no index that could be wrong.
/// </summary>
public sealed class BurstLibrary
{
    /// <summary>Usual ending of recordings.</summary>
    public const string Ending = ".cbrec";

    private const string UnfinishedEnding = ".part";
    private const int ChunkBytes = 32 * 1024;

    private readonly string _folder;
    private readonly TimeProvider _time;
    private readonly List<KeptBurst> _bursts = [];

    private BurstLibrary(string folder, TimeProvider time) => (_folder, _time) = (folder, time);

    /// <summary>The bursts, by device and number.</summary>
    public IEnumerable<KeptBurst> Bursts =>
        _bursts.OrderBy(b => b.Facts.Header.Device, StringComparer.Ordinal).ThenBy(b => b.Facts.Number);

    /// <summary>Recordings in the folder that can't be read, with why.</summary>
    public List<Fact> Unreadable { get; } = [];

    /// <summary>Opens a folder, made where it is missing, and reads all recordings in it.</summary>
    public static BurstLibrary Open(string folder, TimeProvider time, CancellationToken stop)
    {
        FolderSync.Create(folder);
        BurstLibrary library = new(folder, time);
        foreach (string path in Directory.EnumerateFiles(folder, "*" + Ending).Order(StringComparer.Ordinal))
        {
            stop.ThrowIfCancellationRequested();
            library.Load(path);
        }

        return library;
    }

    /// <summary>Bursts of that device and number that are here, whatever their content.</summary>
    public IEnumerable<KeptBurst> Find(string device, uint number) =>
        _bursts.Where(b => b.Facts.Key == (device, number));

    /// <summary>
    /// Keeps a burst: written under a temporary name, flushed to the disk, read back and compared, then given its name.
    /// A burst whose content is here already is left as it is.
    /// </summary>
    /// <returns>True when it is new here.</returns>
    public bool Keep(BurstFacts facts, byte[] file, IReadOnlyList<RecordingDocument> documents)
    {
        KeptBurst[] same = [.. Find(facts.Header.Device, facts.Number)];
        if (same.Any(b => b.Facts.Sha256 == facts.Sha256))
        {
            return false;
        }

        string name = string.Create(CultureInfo.InvariantCulture, $"burst-{facts.Header.Device}-{facts.Number:00000000}");
        // Two contents of one burst: the card was read while it was written, or is damaged since. Both are kept.
        name += (same.Length > 0 ? $"-{facts.Sha256[..8]}" : "") + Ending;
        string path = Path.Combine(_folder, name);
        string unfinished = path + UnfinishedEnding;
        File.Delete(unfinished);
        Write(unfinished, facts, file, documents);
        if (!BytesOf(unfinished, out _).AsSpan().SequenceEqual(file))
        {
            throw new IOException($"{unfinished} does not hold what was written to it: the disk is failing.");
        }

        File.Move(unfinished, path, overwrite: false);
        FolderSync.Flush(_folder);
        _bursts.Add(new KeptBurst(facts, name, _time.GetUtcNow()));
        return true;
    }

    private void Write(string path, BurstFacts facts, byte[] file, IReadOnlyList<RecordingDocument> documents)
    {
        using RecordingWriter writer = new(DiskStore.Create(path), _time);
        writer.Begin(facts.Header, documents);
        for (int at = 0; at < file.Length; at += ChunkBytes)
        {
            writer.AddBytes(file.AsSpan(at, Math.Min(ChunkBytes, file.Length - at)), LossRecord.Unknown);
        }

        if (!facts.IsWhole)
        {
            writer.AddLoss(new LossRecord
            {
                Cause = LossCause.Noise,
                FromDeviceMicroseconds = facts.StartMicroseconds,
                ToDeviceMicroseconds = facts.EndMicroseconds,
                Samples = facts.Missing,
                Detail = "the burst on the card has no end or damaged frames",
            });
        }

        writer.End(EndReason.BurstWhole, facts.Samples);
    }

    private void Load(string path)
    {
        try
        {
            byte[] file = BytesOf(path, out (SessionHeader Header, long UtcMicroseconds)? session);
            if (session is { Header: { Source: SessionSource.Burst } header, UtcMicroseconds: long utc } && HostCalendar.IsDate(utc))
            {
                _bursts.Add(new KeptBurst(
                    BurstFacts.Of(file, header.Place, header.Program),
                    Path.GetFileName(path),
                    DateTimeOffset.UnixEpoch.AddTicks(utc * TimeSpan.TicksPerMicrosecond)));
            }
        }
        catch (Exception fault) when (fault is InputException or IOException)
        {
            Unreadable.Add(Fact.Of("site.at-key", ("key", path), ("what", fault is ITelling { What: var what } ? what : Fact.Of("plain", ("what", fault.Message)))));
        }
    }

    // The frames of a recording, verbatim.
    private static byte[] BytesOf(string path, out (SessionHeader Header, long UtcMicroseconds)? session)
    {
        session = null;
        using FileStream file = RecordingScan.Open(path);
        BlockReader blocks = new(file, path);
        MemoryStream bytes = new();
        while (blocks.Next() is { } block)
        {
            if (block.Head.Kind == BlockKind.Session && SessionHeader.TryRead(block.Payload.Span) is { } header)
            {
                session = (header, block.Head.UtcMicroseconds);
            }
            else if (block.Head.Kind == BlockKind.Frames)
            {
                FrameChunks.CopyTo(block.Payload.Span, bytes);
            }
        }

        return bytes.ToArray();
    }
}
