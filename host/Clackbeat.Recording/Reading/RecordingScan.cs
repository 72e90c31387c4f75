using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Site;

namespace Clackbeat.Recording.Reading;

/// <summary>Whether a recording is all there (recording-format §9).</summary>
public enum Completeness
{
    /// <summary>Every session has its end, nothing is missing from the file.</summary>
    Complete,

    /// <summary>A session has no end: its recorder was killed, or still runs.</summary>
    Truncated,

    /// <summary>Bytes or blocks are missing or spoilt.</summary>
    Damaged,
}

/// <summary>
/// A first pass over a recording: what is in it, what is missing, and how its clocks are tied. Memory does not follow
/// the length of the file.
/// </summary>
public sealed class RecordingScan
{
    private const int ReportEveryBlocks = 64;

    // Each costs memory of its own. A recorder that is started anew every hour makes half of it in a year.
    private const int MostSessions = 20_000;
    private const int MostRuns = 100_000;
    private const long MostTextBytes = 64 << 20;

    private readonly List<SessionFacts> _sessions = [];
    private readonly Dictionary<Guid, (SessionFacts Facts, SessionDecoder Decoder)> _open = [];
    private UnfitBytes? _unfit;
    private int _runs;
    private long _textBytes;

    private RecordingScan(Func<Stream> open, string path)
    {
        Source = open;
        Path = path;
    }

    /// <summary>Opens the recording anew, for the next pass.</summary>
    internal Func<Stream> Source { get; }

    /// <summary>The file.</summary>
    public string Path { get; }

    /// <summary>Its sessions, in order.</summary>
    public IReadOnlyList<SessionFacts> Sessions => _sessions;

    /// <summary>Bytes that are no good block and no torn tail.</summary>
    public long DamagedBytes { get; private set; }

    /// <summary>Bytes of blocks that were being written when a recorder was killed.</summary>
    public long TornBytes { get; private set; }

    /// <summary>Samples of frames that were still good in spoilt blocks.</summary>
    public long SavedSamples { get; private set; }

    /// <summary>Blocks missing from the middle of sessions, or spoilt.</summary>
    public long MissingBlocks => _sessions.Sum(s => s.MissingBlocks);

    /// <summary>Samples.</summary>
    public long Samples => _sessions.Sum(s => s.Samples);

    /// <summary>Samples known to be missing.</summary>
    public long MissingSamples => _sessions.Sum(s => s.MissingSamples);

    /// <summary>What somebody at the ram did while it was recorded, in order.</summary>
    public IReadOnlyList<RecordedMark> Marks => [.. _sessions.SelectMany(MarksOf).OrderBy(m => m.TimeS)];

    /// <summary>Whether it is all there.</summary>
    public Completeness Completeness =>
        DamagedBytes > 0 || MissingBlocks > 0 || _sessions.Any(s => s.Header is null) ? Completeness.Damaged
        : _sessions.Count == 0 || TornBytes > 0 || _sessions.Any(s => s.End is null) ? Completeness.Truncated
        : Completeness.Complete;

    /// <summary>Reads a recording.</summary>
    /// <param name="path">The file.</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="stop">Ends the work early.</param>
    /// <exception cref="InputException">The file is no recording this program reads, or holds no sample.</exception>
    public static RecordingScan Of(string path, IProgress<double>? progress = null, CancellationToken stop = default)
    {
        return Of(() => Open(path), path, progress, stop);
    }

    /// <summary>Reads a recording that can be opened more than once, wherever it lies.</summary>
    /// <param name="open">Opens it; it can seek.</param>
    /// <param name="path">Its name for messages.</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="stop">Ends the work early.</param>
    internal static RecordingScan Of(Func<Stream> open, string path, IProgress<double>? progress = null, CancellationToken stop = default)
    {
        RecordingScan scan = new(open, path);
        using Stream file = open();
        BlockReader blocks = new(file, path) { Unfit = scan.TakeUnfit, Spoilt = scan.TakeSpoilt };
        for (long i = 0; blocks.Next() is { } block; i++)
        {
            scan.Take(block);
            if (i % ReportEveryBlocks == 0)
            {
                stop.ThrowIfCancellationRequested();
                progress?.Report(blocks.Progress);
            }
        }

        scan.Finish();
        return scan;
    }

    internal static FileStream Open(string path) =>
        new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);

    private void TakeUnfit(UnfitBytes unfit)
    {
        if (unfit.AtEnd)
        {
            TornBytes += unfit.Length;
        }
        else
        {
            _unfit = unfit;
        }
    }

    private void Take(RecordingBlock block)
    {
        // A torn tail, then a session that was appended behind it.
        long unfit = _unfit?.Length ?? 0;
        bool tail = block.Head.Kind == BlockKind.Session;
        TornBytes += tail ? unfit : 0;
        DamagedBytes += tail ? 0 : unfit;
        _unfit = null;
        (SessionFacts facts, SessionDecoder decoder) = SessionOf(block);
        Follow(block, facts, decoder);
        facts.Calendar.Add(block.Head.UtcMicroseconds, block.Head.ElapsedMicroseconds);
        TakePayload(block.Head, block.Payload.Span, facts, decoder);
    }

    // Only where the session is known: without its header nobody knows what its frames mean.
    private void TakeSpoilt(RecordingBlock block)
    {
        if (_open.TryGetValue(block.Head.Session, out (SessionFacts Facts, SessionDecoder Decoder) session))
        {
            Follow(block, session.Facts, session.Decoder);
            session.Facts.MissingBlocks++;
            SavedSamples += session.Decoder.ReadSpoilt(block.Payload.Span);
        }
    }

    private static void Follow(RecordingBlock block, SessionFacts facts, SessionDecoder decoder)
    {
        if (block.Head.Sequence > facts.NextSequence)
        {
            facts.MissingBlocks += block.Head.Sequence - facts.NextSequence;
            decoder.Break();
        }

        facts.NextSequence = block.Head.Sequence + 1;
    }

    private void TakePayload(BlockHead head, ReadOnlySpan<byte> payload, SessionFacts facts, SessionDecoder decoder)
    {
        switch (head.Kind)
        {
            case BlockKind.Document when (_textBytes += payload.Length) > MostTextBytes:
                throw InputException.Of("recording.beyond-texts", ("file", Path));
            case BlockKind.Document when RecordingDocument.TryRead(payload) is { } document:
                facts.Documents.Add(document);
                if (document.Role == DocumentRole.Mark && facts.MarksTold.Count < SessionFacts.MostMarks)
                {
                    facts.MarksTold.Add((document.Text, head.ElapsedMicroseconds, Math.Max(0, facts.Segments.Count - 1)));
                }

                break;
            case BlockKind.Frames:
                decoder.Read(payload);
                break;
            case BlockKind.Loss when LossRecord.TryRead(payload) is { } loss && facts.Losses.Count < SessionFacts.MostLosses:
                facts.Losses.Add(loss);
                break;
            case BlockKind.End:
                facts.End = SessionEnd.TryRead(payload);
                break;
        }
    }

    private (SessionFacts Facts, SessionDecoder Decoder) SessionOf(RecordingBlock block)
    {
        if (_open.TryGetValue(block.Head.Session, out (SessionFacts Facts, SessionDecoder Decoder) known))
        {
            return known;
        }

        if (_sessions.Count == MostSessions)
        {
            throw InputException.Of("recording.beyond-sessions", ("file", Path), ("most", MostSessions));
        }

        SessionFacts facts = new(block.Head.Session)
        {
            Header = block.Head.Kind == BlockKind.Session ? SessionHeader.TryRead(block.Payload.Span) : null,
        };
        SessionDecoder decoder = new(facts.Header, (segment, samples, arrived) => TakeSamples(facts, segment, samples, arrived));
        facts.Account = decoder.Account;
        decoder.Bench = bench => facts.Bench = bench;
        decoder.Battery = counts => facts.BatteryCounts = counts;
        decoder.TimeMark = mark => facts.LoggerCalendar = mark;
        _sessions.Add(facts);
        return _open[block.Head.Session] = (facts, decoder);
    }

    private void TakeSamples(SessionFacts facts, int segment, List<LoggerSample> samples, long arrived)
    {
        if (segment == facts.Segments.Count)
        {
            if (_runs++ == MostRuns)
            {
                throw InputException.Of("recording.beyond-starts", ("file", Path), ("most", MostRuns));
            }

            facts.Segments.Add(new SegmentFacts { FirstDeviceMicroseconds = samples[0].DeviceTimeMicroseconds });
        }

        SegmentFacts run = facts.Segments[segment];
        run.LastDeviceMicroseconds = samples[^1].DeviceTimeMicroseconds;
        run.Samples += samples.Count;
        if (arrived >= 0)
        {
            run.Arrivals.Add(run.LastDeviceMicroseconds, arrived);
        }
    }

    // The mark's block says when by the host's clock; the arrivals of frames tie that to the device's.
    private static IEnumerable<RecordedMark> MarksOf(SessionFacts facts)
    {
        foreach ((string words, long elapsed, int at) in facts.MarksTold)
        {
            if (at < facts.Segments.Count && facts.Segments[at] is { Clock: { } clock } segment)
            {
                yield return new RecordedMark(Math.Max(0, clock.DeviceMicroseconds(elapsed) + segment.ShiftMicroseconds) / 1e6, words);
            }
        }
    }

    private void Finish()
    {
        foreach (SegmentFacts segment in _sessions.SelectMany(s => s.Segments))
        {
            segment.Clock = segment.Arrivals.Line();
        }

        TimeAxis.Lay(_sessions);
    }
}
