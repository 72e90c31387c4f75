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
