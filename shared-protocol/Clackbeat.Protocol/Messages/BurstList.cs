using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Which bursts the card holds (SPEC §4, kind 29).</summary>
public sealed class BurstList : Message
{
    private const int FieldsEnd = 13;

    /// <summary>Lowest number; 0 none.</summary>
    public uint First { get; set; }

    /// <summary>Highest number; 0 none.</summary>
    public uint Last { get; set; }

    /// <summary>How many.</summary>
    public uint Count { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        switch (part)
        {
            case 0:
                writer.Begin(Kinds.BurstList);
                writer.AppendU32(First);
                return false;
            case 1:
                writer.AppendU32(Last);
                return false;
            default:
                writer.AppendU32(Count);
                return true;
        }
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.BurstList)
        {
            return false;
        }

        First = Fields.U32(body, 1);
        Last = Fields.U32(body, 5);
        Count = Fields.U32(body, 9);
        return true;
    }
}
