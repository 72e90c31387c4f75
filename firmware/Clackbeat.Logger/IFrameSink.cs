namespace Clackbeat.Logger;

/// <summary>Where finished frames go: the line to a host, or the card.</summary>
public interface IFrameSink
{
    /// <summary>True when a frame can be taken now without making the program wait.</summary>
    bool CanTake(long nowMicroseconds);

    /// <summary>Takes a frame, whose buffer may be used again afterwards; false when the frame is lost.</summary>
    bool Take(byte[] frame, int length, long nowMicroseconds);

    /// <summary>Why a sample is missing when this sink was the cause, from the protocol's loss reasons.</summary>
    int LossReason { get; }
}
