using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Ends a burst (SPEC §8, kind 27).</summary>
public sealed class BurstEnd : Message
{
    private const int FieldsEnd = 23;

    /// <summary>Number of the burst.</summary>
    public uint Burst { get; set; }

    /// <summary>Device time [µs].</summary>
    public long TimeMicroseconds { get; set; }

    /// <summary>Samples taken.</summary>
    public uint Samples { get; set; }

    /// <summary>Grid points without a sample.</summary>
    public uint Lost { get; set; }

    /// <summary>Sleep that is asked for next [ms].</summary>
    public uint SleepMilliseconds { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        switch (part)
        {
            case 0:
                writer.Begin(Kinds.BurstEnd);
                writer.AppendU32(Burst);
                return false;
            case 1:
                writer.AppendU48(TimeMicroseconds);
                return false;
            case 2:
                writer.AppendU32(Samples);
                return false;
            case 3:
                writer.AppendU32(Lost);
                return false;
            default:
                writer.AppendU32(SleepMilliseconds);
                return true;
        }
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.BurstEnd)
        {
            return false;
        }

        Burst = Fields.U32(body, 1);
        TimeMicroseconds = Fields.U48(body, 5);
        Samples = Fields.U32(body, 11);
        Lost = Fields.U32(body, 15);
        SleepMilliseconds = Fields.U32(body, 19);
        return true;
    }
}
