namespace Clackbeat.Recording.Files;

/// <summary>Why a session ended (recording-format §7).</summary>
public enum EndReason
{
    /// <summary>Somebody asked to stop.</summary>
    Asked = 1,

    /// <summary>The time asked for is up.</summary>
    TimeUp = 2,

    /// <summary>The disk failed or is full.</summary>
    Disk = 3,

    /// <summary>The burst is whole.</summary>
    BurstWhole = 4,

    /// <summary>The logger refused to go on.</summary>
    Refused = 5,
}

/// <summary>What closes a session (recording-format §7).</summary>
/// <param name="Reason">Why it ended.</param>
/// <param name="Samples">Samples in it.</param>
/// <param name="Losses">Loss records in it.</param>
public sealed record SessionEnd(EndReason Reason, long Samples, uint Losses)
{
    internal void Write(PayloadWriter payload)
    {
        payload.U8((int)Reason);
        payload.I64(Samples);
        payload.U32(Losses);
    }

    internal static SessionEnd? TryRead(ReadOnlySpan<byte> bytes)
    {
        PayloadReader payload = new(bytes);
        SessionEnd end = new((EndReason)payload.U8(), payload.I64(), payload.U32());
        return payload.Ok ? end : null;
    }
}

/// <summary>Where a tie between device time and calendar comes from (recording-format §8).</summary>
public enum TieSource
{
    /// <summary>This host's clock.</summary>
    Host = 1,

    /// <summary>Reckoned from a lone logger's bursts.</summary>
    Reckoned = 2,

    /// <summary>The logger's own calendar.</summary>
    Logger = 3,
}

/// <summary>A device time and its calendar time (recording-format §8).</summary>
/// <param name="DeviceMicroseconds">Device time [µs].</param>
/// <param name="UtcMicroseconds">Calendar [µs since 1970-01-01 UTC].</param>
/// <param name="UncertaintyMicroseconds">Expanded uncertainty (k = 2) [µs].</param>
/// <param name="Source">Where it comes from.</param>
public sealed record CalendarTie(long DeviceMicroseconds, long UtcMicroseconds, long UncertaintyMicroseconds, TieSource Source)
{
    internal void Write(PayloadWriter payload)
    {
        payload.I64(DeviceMicroseconds);
        payload.I64(UtcMicroseconds);
        payload.I64(UncertaintyMicroseconds);
        payload.U8((int)Source);
    }

    internal static CalendarTie? TryRead(ReadOnlySpan<byte> bytes)
    {
        PayloadReader payload = new(bytes);
        CalendarTie tie = new(payload.I64(), payload.I64(), payload.I64(), (TieSource)payload.U8());
        return payload.Ok ? tie : null;
    }
}
