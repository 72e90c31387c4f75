using System.Runtime.InteropServices;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;

namespace Clackbeat.Recording.Reading;

/// <summary>The second pass over a recording: its samples in order, on one axis of time. Memory stays flat.</summary>
public static class SamplePass
{
    private const int ReportEveryBlocks = 64;

    /// <summary>Hands out all samples.</summary>
    /// <param name="scan">What the first pass found.</param>
    /// <param name="take">Takes them in batches; the batch is valid during the call.</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="stop">Ends the work early.</param>
    public static void Read(
        RecordingScan scan, RecordedSamples take, IProgress<double>? progress = null, CancellationToken stop = default)
    {
        using Stream file = scan.Source();
        Dictionary<Guid, (SessionDecoder Decoder, Sequence Next)> open = [];
        foreach (SessionFacts session in scan.Sessions)
        {
            Placer placer = new(session, take);
            open[session.Id] = (new SessionDecoder(session.Header, placer.Take), new Sequence());
        }

        BlockReader blocks = new(file, scan.Path) { Spoilt = block => Feed(block, isSpoilt: true) };
        for (long i = 0; blocks.Next() is { } block; i++)
        {
            Feed(block, isSpoilt: false);
            if (i % ReportEveryBlocks == 0)
            {
                stop.ThrowIfCancellationRequested();
                progress?.Report(blocks.Progress);
            }
        }

        void Feed(RecordingBlock block, bool isSpoilt)
        {
            if (open.TryGetValue(block.Head.Session, out (SessionDecoder Decoder, Sequence Next) session))
            {
                SamplePass.Feed(block, isSpoilt, session.Decoder, session.Next);
            }
        }
    }

    private static void Feed(RecordingBlock block, bool isSpoilt, SessionDecoder decoder, Sequence next)
    {
        if (block.Head.Sequence > next.Number)
        {
            decoder.Break();
        }

        next.Number = block.Head.Sequence + 1;
        if (isSpoilt)
        {
            decoder.ReadSpoilt(block.Payload.Span);
        }
        else if (block.Head.Kind == BlockKind.Frames)
        {
            decoder.Read(block.Payload.Span);
        }
    }

    private sealed class Sequence
    {
        public uint Number { get; set; }
    }

    private sealed class Placer(SessionFacts session, RecordedSamples take)
    {
        private readonly List<RecordedSample> _placed = [];

        // A recording that still grows may hold more runs by now than the first pass saw; those are left to the next reading.
        public void Take(int segment, List<LoggerSample> samples, long arrived)
        {
            if (segment >= session.Segments.Count)
            {
                return;
            }

            SegmentFacts facts = session.Segments[segment];
            _placed.Clear();
            foreach (LoggerSample sample in samples)
            {
                _placed.Add(new RecordedSample(
                    sample.DeviceTimeMicroseconds + facts.ShiftMicroseconds,
                    sample.DeviceTimeMicroseconds + facts.UtcShiftMicroseconds,
                    sample.Counts,
                    sample.SupplyCounts,
                    sample.DeliveryCounts));
            }

            take(CollectionsMarshal.AsSpan(_placed));
        }
    }
}

/// <summary>Takes a batch of samples, valid during the call.</summary>
public delegate void RecordedSamples(ReadOnlySpan<RecordedSample> samples);
