using System.Security.Cryptography;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Recording.Reading;
using Clackbeat.Site;

namespace Clackbeat.Recording.Collecting;

/// <summary>What a lone logger's burst says of itself (protocol SPEC §10), after every frame of it was checked.</summary>
public sealed record BurstFacts
{
    /// <summary>What opens a session for it.</summary>
    public required SessionHeader Header { get; init; }

    /// <summary>Number of the burst.</summary>
    public required uint Number { get; init; }

    /// <summary>How often the device had started.</summary>
    public required uint Boot { get; init; }

    /// <summary>Why the device woke, from the protocol's wake causes.</summary>
    public required int Wake { get; init; }

    /// <summary>Device time at which it began [µs since the device's start].</summary>
    public required long StartMicroseconds { get; init; }

    /// <summary>Device time at which it ended, or of the last sample where its end is missing [µs].</summary>
    public required long EndMicroseconds { get; init; }

    /// <summary>Sleep asked for before it [s]; 0 for none.</summary>
    public required double SleptS { get; init; }

    /// <summary>Samples.</summary>
    public required long Samples { get; init; }

    /// <summary>Samples that are missing, by the logger's own count and by damaged frames.</summary>
    public required long Missing { get; init; }

    /// <summary>Pieces between frames that were no good frame.</summary>
    public required long DamagedPieces { get; init; }

    /// <summary>Its end is there and nothing in it is damaged.</summary>
    public required bool IsWhole { get; init; }

    /// <summary>The logger's own calendar within it; null for none.</summary>
    public LoggerCalendar? Calendar { get; init; }

    /// <summary>The battery as the logger read it last [counts]; null where it isn't measured.</summary>
    public int? BatteryCounts { get; init; }

    /// <summary>Length of its file [bytes].</summary>
    public required long Bytes { get; init; }

    /// <summary>SHA-256 of its file, hexadecimal.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Device and number: what tells a burst from all others.</summary>
    public (string Device, uint Number) Key => (Header.Device, Number);

    /// <summary>Checks every frame of a burst's file.</summary>
    /// <param name="file">The file's bytes.</param>
    /// <param name="place">Where it came from, for messages and the recording.</param>
    /// <param name="program">Version of this program, for the recording.</param>
    /// <exception cref="InputException">It is no burst, or of another protocol.</exception>
    public static BurstFacts Of(byte[] file, string place, string program)
    {
        BurstStart start = new();
        BurstEnd? end = null;
        LoggerCalendar? calendar = null;
        FrameReader reader = new();
        bool begun = false;
        reader.OtherFrame = (kind, body) =>
        {
            begun |= kind == Kinds.BurstStart && start.TryRead(body, body.Length);
            BurstEnd read = new();
            end = kind == Kinds.BurstEnd && read.TryRead(body, body.Length) ? read : end;
            TimeMark mark = new();
            calendar = kind == Kinds.TimeMark && mark.TryRead(body, body.Length) && mark.CalendarMilliseconds > 0
                ? new LoggerCalendar(mark.TimeMicroseconds, mark.CalendarMilliseconds * 1000, mark.UncertaintyMilliseconds * 1000L)
                : calendar;
        };
        List<LoggerSample> samples = [];
        reader.Read(file, samples);
        if (reader.Hello is not { } hello || !begun)
        {
            throw InputException.Of("recording.no-burst", ("file", place));
        }

        LossAccount losses = reader.Losses;
        return new BurstFacts
        {
            Header = SessionHeader.Of(hello, SessionSource.Burst, program, place) with { Burst = start.Burst, Boot = start.Boot },
            Number = start.Burst,
            Boot = start.Boot,
            Wake = start.Wake,
            StartMicroseconds = start.TimeMicroseconds,
            EndMicroseconds = end?.TimeMicroseconds ?? (samples.Count > 0 ? samples[^1].DeviceTimeMicroseconds : start.TimeMicroseconds),
            SleptS = start.SleptMilliseconds / 1000.0,
            Samples = samples.Count,
            Missing = losses.LostPoints + losses.SkippedPoints,
            DamagedPieces = losses.DiscardedPieces,
            IsWhole = end is not null && losses.DiscardedPieces == 0 && losses.LostFrames == losses.FramesLoggerDropped,
            Calendar = calendar,
            BatteryCounts = reader.Health is { BatteryCounts: not ProtocolVersion.NotGiven16 } health ? health.BatteryCounts : null,
            Bytes = file.Length,
            Sha256 = Convert.ToHexStringLower(SHA256.HashData(file)),
        };
    }
}
