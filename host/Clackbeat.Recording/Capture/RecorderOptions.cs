using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Files;
using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Capture;

/// <summary>How to record.</summary>
public sealed record RecorderOptions
{
    /// <summary>What to ask of the logger; left as it is: the logger's own settings.</summary>
    public StartCommand Start { get; init; } = new();

    /// <summary>How long; null until somebody stops it.</summary>
    public TimeSpan? Length { get; init; }

    /// <summary>Texts that travel along: site file, calibration.</summary>
    public IReadOnlyList<RecordingDocument> Documents { get; init; } = [];

    /// <summary>Version of the program, for the recording.</summary>
    public string Program { get; init; } = "";

    /// <summary>How long a logger may take to say who it is.</summary>
    public TimeSpan IdentifyPatience { get; init; } = TimeSpan.FromSeconds(6);

    /// <summary>How long a start may stay unanswered before it is sent again: sent twice, it interrupts the samples.</summary>
    public TimeSpan StartAgain { get; init; } = TimeSpan.FromSeconds(2.5);

    /// <summary>How long to wait before a lost port is tried again.</summary>
    public TimeSpan RetryEvery { get; init; } = TimeSpan.FromMilliseconds(300);

    /// <summary>How long a logger may send no sample before it is asked what is the matter.</summary>
    public TimeSpan SilencePatience { get; init; } = TimeSpan.FromSeconds(2);
}

/// <summary>What a recorder is doing.</summary>
public enum RecorderState
{
    /// <summary>Asks who is on the port.</summary>
    Asking,

    /// <summary>Samples come and are kept.</summary>
    Recording,

    /// <summary>The link was lost; the port is tried again and again.</summary>
    LinkLost,

    /// <summary>The port is there, but may not or can't be used.</summary>
    PortRefused,

    /// <summary>The port is there, but what is on it is not the logger this recording is of.</summary>
    WrongDevice,

    /// <summary>A logger of another protocol is on the port.</summary>
    WrongVersion,

    /// <summary>The logger sends nothing.</summary>
    Silent,
}

/// <summary>A change of state, for a person.</summary>
/// <param name="State">What the recorder is doing now.</param>
/// <param name="What">Why, and what to do.</param>
public readonly record struct RecorderNews(RecorderState State, Fact What);

/// <summary>How far a recording is.</summary>
/// <param name="State">What the recorder is doing.</param>
/// <param name="RecordedS">Time recorded, breaks counted in [s].</param>
/// <param name="Samples">Samples kept.</param>
/// <param name="LostSamples">Samples known to be missing.</param>
/// <param name="DurableBytes">Bytes that are on the disk itself.</param>
public readonly record struct RecorderProgress(
    RecorderState State, double RecordedS, long Samples, long LostSamples, long DurableBytes);
