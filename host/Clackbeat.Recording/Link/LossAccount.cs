namespace Clackbeat.Recording.Link;

/// <summary>What is missing from a stream of frames, and what was thrown away.</summary>
public sealed class LossAccount
{
    /// <summary>Grid points the logger said it skipped.</summary>
    public long SkippedPoints { get; internal set; }

    /// <summary>Grid points lost with frames that never arrived.</summary>
    public long LostPoints { get; internal set; }

    /// <summary>Samples frames that never arrived, by their sequence numbers.</summary>
    public long LostFrames { get; internal set; }

    /// <summary>Frames that the logger says it dropped itself; they are among <see cref="LostFrames"/> too.</summary>
    public long FramesLoggerDropped { get; internal set; }

    /// <summary>Pieces of received bytes that were no frame.</summary>
    public long DiscardedPieces { get; internal set; }

    /// <summary>Frames of a kind this program doesn't know.</summary>
    public long UnknownFrames { get; internal set; }

    /// <summary>Samples frames that were refused: ill formed, or before a hello that this program can read.</summary>
    public long RefusedFrames { get; internal set; }

    /// <summary>How often the device started anew within the stream.</summary>
    public int Restarts { get; internal set; }

    /// <summary>True when nothing is missing and nothing was thrown away.</summary>
    public bool IsClean => SkippedPoints + LostPoints + LostFrames + DiscardedPieces + RefusedFrames + Restarts == 0;
}
