using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Recording.Time;

namespace Clackbeat.Recording.Reading;

/// <summary>One session of a recording, as a first pass over the file found it.</summary>
public sealed class SessionFacts
{
    internal SessionFacts(Guid id) => Id = id;

    /// <summary>Its id.</summary>
    public Guid Id { get; }

    /// <summary>What opened it; null when that block is lost.</summary>
    public SessionHeader? Header { get; internal set; }

    /// <summary>Texts that travel along.</summary>
    public List<RecordingDocument> Documents { get; } = [];

    /// <summary>What somebody at the ram did meanwhile; the first <see cref="MostMarks"/> of them.</summary>
    internal List<(string Words, long ElapsedMicroseconds, int Segment)> MarksTold { get; } = [];

    /// <summary>Loss records, in order; the first <see cref="MostLosses"/> of them.</summary>
    public List<LossRecord> Losses { get; } = [];

    /// <summary>What closed it; null when its recorder was killed or still runs.</summary>
    public SessionEnd? End { get; internal set; }

    /// <summary>The logger's own calendar, where it was told one; null for none.</summary>
    public LoggerCalendar? LoggerCalendar { get; internal set; }

    /// <summary>What the logger measured of its own board; null where it never did.</summary>
    public Bench? Bench { get; internal set; }

    /// <summary>The battery as the logger reported it last [counts]; null where it isn't measured.</summary>
    public int? BatteryCounts { get; internal set; }

    /// <summary>Blocks missing from the middle, by their numbers, or spoilt.</summary>
    public long MissingBlocks { get; internal set; }

    /// <summary>The host's calendar.</summary>
    public HostCalendar Calendar { get; } = new();

    /// <summary>What the frames themselves show to be missing.</summary>
    public LossAccount Account { get; internal set; } = new();

    /// <summary>Runs of the device's clock: a restart of the device begins a new one.</summary>
    public List<SegmentFacts> Segments { get; } = [];

    /// <summary>Most loss records kept in memory.</summary>
    public const int MostLosses = 10_000;

    /// <summary>Most marks kept in memory.</summary>
    public const int MostMarks = 1000;

    internal uint NextSequence { get; set; }

    /// <summary>Samples in it.</summary>
    public long Samples => Segments.Sum(s => s.Samples);

    /// <summary>Samples that are known to be missing: by the frames, or by the time a break lasted.</summary>
    public long MissingSamples => Account.LostPoints + Account.SkippedPoints
        + Losses.Where(l => l.ToDeviceMicroseconds < 0 && l.Samples > 0).Sum(l => l.Samples);
}

/// <summary>One run of a device's clock within a session.</summary>
public sealed class SegmentFacts
{
    /// <summary>Device time of the first sample [µs].</summary>
    public long FirstDeviceMicroseconds { get; internal set; }

    /// <summary>Device time of the last sample [µs].</summary>
    public long LastDeviceMicroseconds { get; internal set; }

    /// <summary>Samples.</summary>
    public long Samples { get; internal set; }

    /// <summary>How its clock ran against the host's; null where no arrival is known.</summary>
    public ClockLine? Clock { get; internal set; }

    internal ClockFit Arrivals { get; } = new();

    /// <summary>What to add to a device time for the time since the recording's first sample [µs].</summary>
    public long ShiftMicroseconds { get; internal set; }

    /// <summary>What to add to a device time for the calendar [µs since 1970-01-01 UTC]; null where nothing ties them.</summary>
    public long? UtcShiftMicroseconds { get; internal set; }
}

/// <summary>What somebody did at the ram while it was recorded.</summary>
/// <param name="TimeS">When, since the recording's first sample [s]; good to some tens of ms, as host clocks are.</param>
/// <param name="Words">What, in the keeper's words.</param>
public sealed record RecordedMark(double TimeS, string Words);

/// <summary>A device time and the calendar that the logger tied to it (protocol SPEC §8).</summary>
/// <param name="DeviceMicroseconds">Device time [µs].</param>
/// <param name="UtcMicroseconds">Calendar [µs since 1970-01-01 UTC].</param>
/// <param name="UncertaintyMicroseconds">Uncertainty as the logger was told it [µs].</param>
public sealed record LoggerCalendar(long DeviceMicroseconds, long UtcMicroseconds, long UncertaintyMicroseconds);
