using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Ties device time to the calendar (SPEC §8, kind 25).</summary>
public sealed class TimeMark : Message
{
    private const int FieldsEnd = 18;

    /// <summary>Device time [µs].</summary>
    public long TimeMicroseconds { get; set; }

    /// <summary>Milliseconds since 1970-01-01 UTC; 0 unknown.</summary>
    public long CalendarMilliseconds { get; set; }

    /// <summary>Uncertainty of the calendar [ms].</summary>
    public uint UncertaintyMilliseconds { get; set; }

    /// <summary>Where the calendar comes from, from <see cref="ClockSources"/>.</summary>
    public int Source { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        switch (part)
        {
            case 0:
                writer.Begin(Kinds.TimeMark);
                return false;
            case 1:
                writer.AppendU32((uint)TimeMicroseconds);
                return false;
            case 2:
                writer.AppendU16((int)(TimeMicroseconds >> 32) & 0xFFFF);
                return false;
            case 3:
                writer.AppendU32((uint)CalendarMilliseconds);
                return false;
            case 4:
                writer.AppendU16((int)(CalendarMilliseconds >> 32) & 0xFFFF);
                return false;
            default:
                writer.AppendU32(UncertaintyMilliseconds);
                writer.AppendByte((byte)Source);
                return true;
        }
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.TimeMark)
        {
            return false;
        }

        TimeMicroseconds = Fields.U48(body, 1);
        CalendarMilliseconds = Fields.U48(body, 7);
        UncertaintyMilliseconds = Fields.U32(body, 13);
        Source = body[17];
        return true;
    }
}
