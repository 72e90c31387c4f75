namespace Clackbeat.Recording.Files;

/// <summary>Why something is missing (recording-format §6).</summary>
public enum LossCause
{
    /// <summary>The link was cut: unplugged, or the port failed.</summary>
    LinkCut = 1,

    /// <summary>The logger started anew.</summary>
    Restart = 2,

    /// <summary>The logger came late and skipped samples.</summary>
    Overrun = 3,

    /// <summary>Frames were damaged or lost on the line.</summary>
    Noise = 4,

    /// <summary>This computer was too slow to take the bytes.</summary>
    SlowHost = 5,

    /// <summary>The disk did not take the bytes.</summary>
    Disk = 6,

    /// <summary>Another device, or one that is no logger, was on the port.</summary>
    WrongDevice = 7,

    /// <summary>The logger was silent.</summary>
    Silence = 8,

    /// <summary>The logger could not hand over frames: its line or card was busy.</summary>
    LoggerBusy = 9,

    /// <summary>The logger's converter gave no reading.</summary>
    Converter = 10,
}

/// <summary>Something is missing, and why (recording-format §6). −1 says unknown.</summary>
public sealed record LossRecord
{
    /// <summary>Stands for a time or number nobody knows.</summary>
    public const long Unknown = -1;

    // Nine years in microseconds: what the logger's clock can count to, and more than any recording lasts.
    private const long Most = 1L << 48;

    /// <summary>Why.</summary>
    public required LossCause Cause { get; init; }

    /// <summary>Host time since the session began, when it began [µs].</summary>
    public long FromElapsedMicroseconds { get; init; } = Unknown;

    /// <summary>Host time since the session began, when it was over [µs].</summary>
    public long ToElapsedMicroseconds { get; init; } = Unknown;

    /// <summary>Device time of the last sample before [µs].</summary>
    public long FromDeviceMicroseconds { get; init; } = Unknown;

    /// <summary>Device time of the first sample after [µs].</summary>
    public long ToDeviceMicroseconds { get; init; } = Unknown;

    /// <summary>Samples missing.</summary>
    public long Samples { get; init; } = Unknown;

    /// <summary>Bytes thrown away.</summary>
    public long Bytes { get; init; }

    /// <summary>Words for a person; may be empty.</summary>
    public string Detail { get; init; } = "";

    /// <summary>
    /// Time without samples [s]: the samples missing by their period. The span of <see cref="LengthS"/> may hold good samples
    /// as well, since losses within a second become one record. 0 when neither is known.
    /// </summary>
    /// <param name="periodMicroseconds">Period of the samples [µs].</param>
    public double MissingS(long periodMicroseconds) =>
        Samples >= 0 ? Samples * (periodMicroseconds / 1e6) : LengthS ?? 0;

    /// <summary>How long it lasted from the first to the last [s], by the device's clock where that is known; null when nobody knows.</summary>
    public double? LengthS =>
        FromDeviceMicroseconds >= 0 && ToDeviceMicroseconds >= FromDeviceMicroseconds
            ? (ToDeviceMicroseconds - FromDeviceMicroseconds) / 1e6
            : FromElapsedMicroseconds >= 0 && ToElapsedMicroseconds >= FromElapsedMicroseconds
                ? (ToElapsedMicroseconds - FromElapsedMicroseconds) / 1e6
                : null;

    internal void Write(PayloadWriter payload)
    {
        payload.U8((int)Cause);
        payload.U8(0);
        payload.I64(FromElapsedMicroseconds);
        payload.I64(ToElapsedMicroseconds);
        payload.I64(FromDeviceMicroseconds);
        payload.I64(ToDeviceMicroseconds);
        payload.I64(Samples);
        payload.I64(Bytes);
        payload.Text(Detail);
    }

    internal static LossRecord? TryRead(ReadOnlySpan<byte> bytes)
    {
        PayloadReader payload = new(bytes);
        var cause = (LossCause)payload.U8();
        payload.U8();
        LossRecord record = new()
        {
            Cause = cause,
            FromElapsedMicroseconds = Known(payload.I64()),
            ToElapsedMicroseconds = Known(payload.I64()),
            FromDeviceMicroseconds = Known(payload.I64()),
            ToDeviceMicroseconds = Known(payload.I64()),
            Samples = Known(payload.I64()),
            Bytes = Math.Max(0, Known(payload.I64())),
            Detail = payload.Text(),
        };
        return payload.Ok ? record : null;
    }

    // A figure that can't be is no figure: sums over such records stay within what a long holds.
    private static long Known(long value) => value is >= 0 and <= Most ? value : Unknown;
}
