using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Command that tells the calendar (SPEC §8, kind 30).</summary>
public sealed class SetCalendar : Message
{
    private const int FieldsEnd = 11;

    /// <summary>Milliseconds since 1970-01-01 UTC.</summary>
    public long CalendarMilliseconds { get; set; }

    /// <summary>Uncertainty [ms].</summary>
    public uint UncertaintyMilliseconds { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        switch (part)
        {
            case 0:
                writer.Begin(Kinds.SetCalendar);
                writer.AppendU48(CalendarMilliseconds);
                return false;
            default:
                writer.AppendU32(UncertaintyMilliseconds);
                return true;
        }
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.SetCalendar)
        {
            return false;
        }

        CalendarMilliseconds = Fields.U48(body, 1);
        UncertaintyMilliseconds = Fields.U32(body, 7);
        return true;
    }
}
