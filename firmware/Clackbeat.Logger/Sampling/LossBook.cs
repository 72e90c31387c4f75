using Clackbeat.Protocol.Messages;

namespace Clackbeat.Logger.Sampling;

/// <summary>
/// Counts what was taken and what was lost, and gathers lost frames into one record until it can be told (SPEC §7).
/// </summary>
public sealed class LossBook
{
    private readonly LoggerState _state;

    /// <summary>Makes the book over the state that health is made of.</summary>
    public LossBook(LoggerState state)
    {
        _state = state;
    }

    /// <summary>Lost frames not told yet.</summary>
    public Loss Record { get; } = new();

    /// <summary>True when there is something to tell.</summary>
    public bool HasRecord => Record.Frames > 0;

    /// <summary>Grid points of the frame that is being closed.</summary>
    public int FramePoints { get; set; }

    /// <summary>How many of them were skipped.</summary>
    public int FrameSkipped { get; set; }

    /// <summary>Counts grid points without a sample.</summary>
    public void CountSkipped(int points) => _state.LostSamples += (uint)points;

    /// <summary>Counts the frame that was handed to its sink.</summary>
    public void CountFrame(bool taken, int reason, long baseMicroseconds, int periodMicroseconds)
    {
        uint samples = (uint)(FramePoints - FrameSkipped);
        if (taken)
        {
            _state.Samples += samples;
            return;
        }

        if (Record.Frames == 0)
        {
            Record.FirstMicroseconds = baseMicroseconds;
        }

        Record.Reason = reason;
        Record.Frames++;
        Record.Samples += samples;
        Record.LastMicroseconds = baseMicroseconds + ((long)(FramePoints - 1) * periodMicroseconds);
        _state.LostSamples += samples;
    }

    /// <summary>Called when the record has been told.</summary>
    public void Clear()
    {
        Record.Frames = 0;
        Record.Samples = 0;
    }
}
