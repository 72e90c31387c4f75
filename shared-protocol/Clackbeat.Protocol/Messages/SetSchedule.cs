using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Command that tells a lone logger how long its bursts are and how often they come (SPEC §5, §10, kind 34).</summary>
public sealed class SetSchedule : Message
{
    /// <summary>Shortest burst [ms].</summary>
    public const uint ShortestMilliseconds = 1_000;

    /// <summary>Longest time from start to start [ms]: a week.</summary>
    public const uint LongestMilliseconds = 604_800_000;

    /// <summary>Least time from the end of one burst to the start of the next [ms].</summary>
    public const uint LeastPauseMilliseconds = 10_000;

    private const int FieldsEnd = 9;

    /// <summary>Length of a burst [ms].</summary>
    public uint LengthMilliseconds { get; set; }

    /// <summary>Time from the start of one burst to the start of the next [ms].</summary>
    public uint IntervalMilliseconds { get; set; }

    /// <summary>True when a logger can keep to it.</summary>
    public bool IsInRange => LengthMilliseconds >= ShortestMilliseconds
        && IntervalMilliseconds <= LongestMilliseconds
        && IntervalMilliseconds >= LeastPauseMilliseconds
        && LengthMilliseconds <= IntervalMilliseconds - LeastPauseMilliseconds;

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        switch (part)
        {
            case 0:
                writer.Begin(Kinds.SetSchedule);
                writer.AppendU32(LengthMilliseconds);
                return false;
            default:
                writer.AppendU32(IntervalMilliseconds);
                return true;
        }
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.SetSchedule)
        {
            return false;
        }

        LengthMilliseconds = Fields.U32(body, 1);
        IntervalMilliseconds = Fields.U32(body, 5);
        return true;
    }
}
