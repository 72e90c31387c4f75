using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Time;

namespace Clackbeat.Recording.Capture;

/// <summary>How a recording ended.</summary>
public sealed record RecorderSummary
{
    /// <summary>Why it ended.</summary>
    public required EndReason Reason { get; init; }

    /// <summary>What the disk said when it failed; null when it did not.</summary>
    public string? DiskFault { get; init; }

    /// <summary>Id of the logger.</summary>
    public required string Device { get; init; }

    /// <summary>Samples kept.</summary>
    public required long Samples { get; init; }

    /// <summary>Time recorded, breaks counted in [s].</summary>
    public required double RecordedS { get; init; }

    /// <summary>What is missing, by cause.</summary>
    public required IReadOnlyDictionary<LossCause, LossTotal> Losses { get; init; }

    /// <summary>How often the logger restarted.</summary>
    public required int Restarts { get; init; }

    /// <summary>How the logger's clock ran against this host's since its last start; null without samples.</summary>
    public ClockLine? Clock { get; init; }

    /// <summary>What the logger measured of its own board; null where it never did.</summary>
    public Bench? Bench { get; init; }

    /// <summary>True when nothing is missing.</summary>
    public bool IsWhole => Losses.Count == 0 && DiskFault is null;
}
